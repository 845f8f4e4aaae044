//! Carbon dioxide and nitrous oxide dissolved in water; gas in pores.
