"""What other programs read: mail drafts, calendars, contact cards."""
