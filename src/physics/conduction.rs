//! Heat conduction into solids, in closed form and step by step.
