"""Pure plans: from wishes to figures, each with the arithmetic that a person could redo on paper."""
