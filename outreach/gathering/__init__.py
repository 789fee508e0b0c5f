"""From the record to the facts of a sheet: the only part of the documents that reads the database."""
