"""A text taken apart into lines and sentences before any is read: tables, hours, marks, brackets. Pure."""
