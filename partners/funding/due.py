"""What falls due of money: dates of grants, receipts and tax, free days."""

from partners.funding import buying_due, grant_due, occasion_due
from partners.ground.due import DueSource

SOURCES: tuple[DueSource, ...] = (
    *grant_due.SOURCES,
    *buying_due.SOURCES,
    *occasion_due.SOURCES,
)
