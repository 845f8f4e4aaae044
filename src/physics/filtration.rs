//! Filtration through cloth, paper, cake and membrane.
