"""Small parts that several pages draw; each reads plain records, shows them, and hands back what the person did."""
