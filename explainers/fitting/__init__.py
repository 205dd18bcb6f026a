"""A voice fitted to a lesson: takes found in recordings, checked, made ready, and remembered beside the lesson.

``takes`` finds recordings (files, a log, one alone), ``prompter_log`` lays the page's clock over the recording's,
``division`` is the file in which a teacher settles doubts, ``making`` keeps takes, ``memory`` is the folder beside the
lesson, ``fitted`` the timeline made of it. The sounds themselves are read, measured and coded in ``explainers.voice``,
which knows no lesson.
"""
