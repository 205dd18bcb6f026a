"""Files as they are written: YAML with its lines, and formats as tables of fields that all else follows."""
