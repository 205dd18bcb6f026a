"""New outlines: drawn on squared paper, and judged by whether each corner is seen."""
