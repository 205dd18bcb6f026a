"""What the teacher wrote: items, lessons, and how they are read from YAML."""
