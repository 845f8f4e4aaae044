//! What heat destroys: germs, vitamins, colour, texture.
