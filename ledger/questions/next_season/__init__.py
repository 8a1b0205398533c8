"""What must be grown next season for the shelf and the table, and do the beds suffice?"""
