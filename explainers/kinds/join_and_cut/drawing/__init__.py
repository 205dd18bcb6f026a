"""Pictures of joining and cutting: the sheet, the work table, pieces on paper."""
