"""A voice fitted to a lesson: takes found in recordings, checked, made ready, and remembered beside the lesson."""
