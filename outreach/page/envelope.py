"""A #10 envelope and where on it the post wants what (USPS DMM 202: OCR read area, barcode clear zone)."""

from outreach.page.paper import ENVELOPE_HEIGHT, ENVELOPE_WIDTH, INCH, Box, Paper

ENVELOPE = Paper("#10 envelope", ENVELOPE_WIDTH, ENVELOPE_HEIGHT, side=0.35 * INCH, top=0.35 * INCH, bottom=0.25 * INCH)
READ_AREA = Box(0.5 * INCH, ENVELOPE_HEIGHT - 2.75 * INCH, ENVELOPE_WIDTH - 0.5 * INCH, ENVELOPE_HEIGHT - 0.625 * INCH)
"""The last lines of the address are read here: half an inch from the sides, 5/8 to 2-3/4 in above the lower edge."""
BARCODE = Box(ENVELOPE_WIDTH - 4.75 * INCH, ENVELOPE_HEIGHT - 0.625 * INCH, ENVELOPE_WIDTH, ENVELOPE_HEIGHT)
"""Stays free for the post: lower right, 4-3/4 by 5/8 in."""
DELIVERY = Box(4.0 * INCH, READ_AREA.top + 0.3 * INCH, READ_AREA.right - 0.1 * INCH, READ_AREA.bottom - 0.15 * INCH)
"""Where our addresses stand: inside the read area, clear of its edges."""
RETURN = Box(0.35 * INCH, 0.35 * INCH, 3.9 * INCH, READ_AREA.top - 0.06 * INCH)
"""Whose envelope it is: the upper left corner, above the read area, so that it is never taken for the address."""
