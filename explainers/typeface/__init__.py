"""Font files, text widths and glyph outlines, so that labels can be placed before anyone draws."""
