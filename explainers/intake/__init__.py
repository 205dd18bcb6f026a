"""From files to values: items read and solved, read and written in their formats."""
