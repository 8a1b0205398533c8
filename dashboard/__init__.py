"""The dashboard: pages that ask projections and forms that write through the door.

`dashboard.app.make_app` makes the app of a book, `dashboard.serving.serve` listens.
"""
