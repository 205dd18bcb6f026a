"""Pictures of the outline alone: looked at closely, printed, cut out."""
