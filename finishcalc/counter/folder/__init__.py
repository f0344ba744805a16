"""The folder of projects: what may be read in it, drafts of unsaved work, and files saved whole or not at all."""
