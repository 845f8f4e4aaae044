//! Sets of things on offer, small enough to be copied.

/// The most things that can be on offer at once.
pub const MOST_THINGS: usize = WORDS * WORD;
const WORDS: usize = 4;
const WORD: usize = u64::BITS as usize;

/// A set of things on offer, by number.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq, PartialOrd, Ord)]
pub struct Things([u64; WORDS]);

impl Things {
    /// The empty set.
    pub const NONE: Self = Self([0; WORDS]);

    /// Returns the set with one thing more; a number from [`MOST_THINGS`] on adds nothing.
    #[must_use]
    pub fn with(mut self, thing: usize) -> Self {
        if let Some(word) = self.0.get_mut(thing / WORD) {
            *word |= 1 << (thing % WORD);
        }
        self
    }

    /// Returns whether the two sets share a thing.
    pub fn meets(self, other: Self) -> bool {
        self.0.iter().zip(other.0).any(|(a, b)| a & b != 0)
    }

    /// Returns whether a thing is in the set.
    pub fn has(self, thing: usize) -> bool {
        self.0.get(thing / WORD).is_some_and(|word| word >> (thing % WORD) & 1 == 1)
    }

    /// Returns the things by rising number.
    pub fn iter(self) -> impl Iterator<Item = usize> {
        (0..MOST_THINGS).filter(move |thing| self.has(*thing))
    }
}

impl FromIterator<usize> for Things {
    fn from_iter<I: IntoIterator<Item = usize>>(things: I) -> Self {
        things.into_iter().fold(Self::NONE, Self::with)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_set_holds_what_was_put_in() {
        let set: Things = [3, 64, 255].into_iter().collect();
        assert_eq!(set.iter().collect::<Vec<_>>(), [3, 64, 255]);
        assert!(set.meets(Things::NONE.with(64)));
        assert!(!set.meets(Things::NONE.with(65)));
        assert_eq!(Things::NONE.with(MOST_THINGS), Things::NONE);
    }
}
