//! Published heat resistance of named germs.
