"""Pure rendering: plans and quote become text or JSON. It arranges and never decides."""
