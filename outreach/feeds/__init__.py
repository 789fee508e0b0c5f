"""What other programs read: mail drafts."""
