"""Pictures of options: in their cells, laid on the outline, chosen."""
