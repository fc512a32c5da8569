//! Weight, bought = parts + drops + kerf + trim + scrap, and money.
