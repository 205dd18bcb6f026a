"""One SVG of a figure, for pages, sheets and stills."""
