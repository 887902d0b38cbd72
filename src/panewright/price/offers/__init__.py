"""What a customer is offered: the quote, its breaks, tax, carriage, and the market beside it."""
