"""What is made for one client: her page in one file, her sheets, her calendar.

None of it is a page of the site: nothing here is named in ``pages/all_pages.py``.
"""
