"""What corrections inside a row of marks do, by what they put right."""
