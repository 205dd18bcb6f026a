"""The drawing table: an item's file drawn on a page and changed in an editor in turn, its lesson beside it.

The way of a change: a page posts commands (``editing``, and those of the kind) with the revision that it saw;
``sitting`` does them to the text, merges them with what others changed since, puts them into the journal (``journal``),
writes the file (``item_file``) where it is sound to read, and ``state`` says what has become of it. ``server`` has the
addresses; its docstring is the contract for whoever writes the page.

The lesson (``lesson_desk``) follows the text without holding a change up: ``telling`` plans it in a process apart,
``lesson_words`` puts words into its file, ``lessons_beside`` finds or makes that file, ``building`` builds it.
"""
