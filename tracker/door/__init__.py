"""Phones of the same network: each is paired once by a code from the laptop's screen and then shows its own key.

`store` is the file of keys and codes beside the log, `pairing` gives and checks them, `gate` stands before every page
and socket, `doorway` is what whoever has no key sees. Nothing here knows a log or a page.
"""
