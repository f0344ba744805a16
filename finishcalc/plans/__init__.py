"""Pure plans: from a project's specification to figures, each with the arithmetic that a person could redo on paper."""
