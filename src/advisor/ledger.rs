//! Where the mass of a whole recipe goes: what comes in is eaten, kept, or leaves by a named way.
//!
//! Each sample has its own account, and each account is closed on its own; the ledger shows the range
//! of every line and the largest gap of any sample.

use super::simulate::Balance;
use crate::estimate::Estimate;
use crate::process::Batch;

/// The ways by which mass comes and goes.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Line {
    /// Ingredients, as bought.
    Bought,
    /// Water and other supplies that moves add.
    Added,
    /// Products of steps that are bought ready-made.
    ReadyMade,
    /// Products of steps that no route at home does, from a kitchen that has the instrument.
    Received,
    /// The dish.
    Eaten,
    /// What the recipe keeps aside on purpose.
    Kept,
    /// Peel and trim.
    Trimmed,
    /// Evaporated or sublimed.
    Evaporated,
    /// Left on pan, cloth, paper or blade.
    LeftOnGear,
    /// Ice, sediment, cake and other streams that do not go on.
    PouredAway,
    /// Losses that plain work states.
    Stated,
    /// What is made all the same, and a product that is bought ready-made makes superfluous.
    Replaced,
    /// What goes to a kitchen that has the instrument.
    HandedOver,
}

impl Line {
    /// Every line, what comes in first.
    pub const ALL: [Self; 13] = [
        Self::Bought,
        Self::Added,
        Self::ReadyMade,
        Self::Received,
        Self::Eaten,
        Self::Kept,
        Self::Trimmed,
        Self::Evaporated,
        Self::LeftOnGear,
        Self::PouredAway,
        Self::Stated,
        Self::Replaced,
        Self::HandedOver,
    ];

    /// Returns whether mass comes in by it.
    pub const fn comes_in(self) -> bool {
        matches!(self, Self::Bought | Self::Added | Self::ReadyMade | Self::Received)
    }

    /// Returns it in words.
    pub const fn words(self) -> &'static str {
        match self {
            Self::Bought => "bought",
            Self::Added => "added by the moves",
            Self::ReadyMade => "bought ready-made",
            Self::Received => "from a kitchen with the instrument",
            Self::Eaten => "in the dish",
            Self::Kept => "kept aside",
            Self::Trimmed => "trimmed away",
            Self::Evaporated => "gone as vapour",
            Self::LeftOnGear => "left on cloth, pan or blade",
            Self::PouredAway => "poured away: pulp, ice, sediment",
            Self::Stated => "lost in plain work, as stated",
            Self::Replaced => "not needed: bought ready-made",
            Self::HandedOver => "handed to a kitchen with the instrument",
        }
    }
}

/// The account of one sample \[kg\].
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub(super) struct Account([f64; Line::ALL.len()]);

impl Account {
    /// Enters a mass \[kg\].
    pub(super) fn enter(&mut self, line: Line, mass: f64) {
        self.0[line as usize] += mass;
    }

    /// Enters what a route did with a feed, where `share` of it was run.
    pub(super) fn enter_route(&mut self, balance: &Balance, share: f64) {
        let mass = |contents: &crate::process::Contents| share * contents.total().si();
        self.enter(Line::Added, mass(&balance.added));
        self.enter(Line::Evaporated, mass(&balance.vapour));
        self.enter(Line::LeftOnGear, mass(&balance.left_behind));
        self.enter(Line::PouredAway, mass(&balance.other));
    }

    /// Enters a product that is bought in place of a feed.
    pub(super) fn enter_bought(&mut self, made: &Batch, added: f64) {
        self.enter(Line::Added, added);
        self.enter(Line::ReadyMade, made.mass().si() - added);
    }

    /// Adds another account.
    pub(super) fn add(&mut self, other: &Self) {
        self.0.iter_mut().zip(other.0).for_each(|(own, more)| *own += more);
    }

    /// What came in less what went out \[kg\].
    fn gap(&self) -> f64 {
        let signed = Line::ALL.iter().map(|line| {
            let mass = self.0[*line as usize];
            if line.comes_in() { mass } else { -mass }
        });
        signed.sum()
    }
}

/// Where the mass of a recipe goes.
#[derive(Debug, Clone, PartialEq)]
pub struct Ledger {
    /// The lines with their masses \[kg\].
    pub lines: Vec<(Line, Estimate)>,
    /// The largest gap of any sample between what came in and what went out \[kg\].
    pub gap: f64,
}

impl Ledger {
    /// Draws the ledger from the accounts of the samples; none without samples.
    pub(super) fn of(accounts: &[Account]) -> Option<Self> {
        let line = |line: Line| {
            let masses: Vec<f64> = accounts.iter().map(|one| one.0[line as usize]).collect();
            Some((line, Estimate::of_results(&masses)?))
        };
        let lines = Line::ALL.into_iter().map(line).collect::<Option<Vec<_>>>()?;
        let gap = accounts.iter().map(|account| account.gap().abs()).fold(0.0, f64::max);
        Some(Self { lines, gap })
    }

    /// Returns the mass of a line \[kg\].
    pub fn line(&self, wanted: Line) -> Option<&Estimate> {
        self.lines.iter().find(|(line, _)| *line == wanted).map(|(_, mass)| mass)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn an_account_that_does_not_close_shows_its_gap() {
        let mut account = Account::default();
        account.enter(Line::Bought, 1.0);
        account.enter(Line::Eaten, 0.7);
        account.enter(Line::Evaporated, 0.3);
        let mut open = account;
        open.enter(Line::Trimmed, 0.002);
        let ledger = Ledger::of(&[account, open]).unwrap();
        assert!((ledger.gap - 0.002).abs() < 1e-12);
        assert!((ledger.line(Line::Eaten).unwrap().typical() - 0.7).abs() < 1e-12);
        assert!(Ledger::of(&[]).is_none());
    }
}
