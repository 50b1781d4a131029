"""Members, places, kit, accounts and devices."""
