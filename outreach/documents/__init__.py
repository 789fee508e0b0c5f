"""Everything that leaves the building on paper, one module each; `outreach/registry.py` lists them.

Each module has `SLUG`, `TITLE`, `ABOUT` (the row whose number the address takes; for a sheet of the register its column
there), `Facts`, `draw`, `draw_many`, `write_many` and `gaps`.
"""
