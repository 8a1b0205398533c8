"""What is on the shelf, how old is it, how long does it last, and what should be eaten first?"""
