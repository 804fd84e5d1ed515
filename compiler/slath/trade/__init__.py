"""What the trade knows: stocks, settings, words, cautions and tools, each value with what it rests on."""
