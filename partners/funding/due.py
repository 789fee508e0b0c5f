"""What falls due of money: dates of grants, receipts and tax, free days."""

from partners.funding import grant_due, occasion_due
from partners.ground.due import DueSource

SOURCES: tuple[DueSource, ...] = (
    *grant_due.SOURCES,
    *occasion_due.SOURCES,
)
