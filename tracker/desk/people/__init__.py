"""Members, their places and kit, accounts and devices."""
