"""Days and headings of a sheet: weekdays, dates, sections. Pure."""
