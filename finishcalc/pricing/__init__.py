"""Pure pricing: from plans and rates to the lines of a quote and their total."""
