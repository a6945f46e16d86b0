"""Plan and Scenes → Booklet → HTML and PDF."""
