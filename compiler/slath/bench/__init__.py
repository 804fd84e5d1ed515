"""A page in the browser that follows a pattern while it is written: drawings, numbers, notes and pages, seen as they are saved."""
