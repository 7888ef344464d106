"""Which numbers are colonies, which are counts? The questions `group` asks at each number, by what they ask of."""
