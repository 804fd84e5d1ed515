"""What a designer who sells patterns makes of one: editions kept and compared, copies, the offer, costs, a shop's folder."""
