"""What falls due of money: dates of grants, receipts and tax, free days."""

from partners.funding import occasion_due
from partners.ground.due import DueSource

SOURCES: tuple[DueSource, ...] = (*occasion_due.SOURCES,)
