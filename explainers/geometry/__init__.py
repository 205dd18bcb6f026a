"""Pure plane geometry: values in, values out. No items, pictures or files here."""
