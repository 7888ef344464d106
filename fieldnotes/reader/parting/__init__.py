"""Where does a new statement begin? The questions `clause.split` asks at each mark, by what they ask of."""
