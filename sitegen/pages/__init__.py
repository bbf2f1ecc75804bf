"""The site's pages: which there are, what each is made from, how it is made."""
