"""The workbench: what was measured is read, checked, and put into a report to keep."""
