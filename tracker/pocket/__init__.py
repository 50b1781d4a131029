"""The day page: what is next on a phone, with a connection and without one; see plan, acts, routes and page/."""
