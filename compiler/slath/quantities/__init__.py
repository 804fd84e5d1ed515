"""What a constructed basket takes: pieces, strands, purchase, mass and cost, each number with what it rests on."""
