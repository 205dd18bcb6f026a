"""What several formats need: captions, moments, the picture of a step, remarks."""
