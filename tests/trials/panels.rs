//! Panels of tasters against published tables and exact libraries.

use serde::Deserialize;
use standin::trial::panel::{Design, Needed, Panel, PanelError, tasters_needed};
use statrs::distribution::{Binomial, DiscreteCDF};

use super::rows;

fn triangle(tasters: u32) -> Panel {
    Panel::new(Design::Triangle, tasters).unwrap()
}

/// H. H. Huss (ed.), Quality and quality changes in fresh fish, FAO Fisheries Technical Paper 348,
/// 1995, appendix A.
#[derive(Deserialize)]
struct Published {
    tasters: u32,
    at_5_percent: u32,
    at_1_percent: u32,
    at_0_1_percent: Option<u32>,
}

#[test]
fn the_published_table_of_triangle_tests_is_met() {
    for row in rows::<Published>("triangle_fao.csv") {
        let panel = triangle(row.tasters);
        let least = |alpha| panel.least_for_difference(alpha).unwrap();
        assert_eq!(least(0.05), Some(row.at_5_percent), "{} at 5 %", row.tasters);
        assert_eq!(least(0.01), Some(row.at_1_percent), "{} at 1 %", row.tasters);
        assert_eq!(least(0.001), row.at_0_1_percent, "{} at 0.1 %", row.tasters);
    }
}

#[derive(Deserialize)]
struct Library {
    design: String,
    tasters: u32,
    correct: u32,
    p_value: f64,
    could_miss: f64,
}

#[test]
fn chances_and_limits_agree_with_two_libraries() {
    for row in rows::<Library>("panels.csv") {
        let design = match row.design.as_str() {
            "triangle" => Design::Triangle,
            "paired-one-sided" => Design::PairedOneSided,
            _ => Design::PairedTwoSided,
        };
        let panel = Panel::new(design, row.tasters).unwrap();
        let p = panel.p_value(row.correct).unwrap();
        // Logarithms of factorials of thousands cost a few of sixteen digits.
        assert!((p / row.p_value - 1.0).abs() < 1e-9, "{row:?}: {p}", row = row.p_value);
        let missed = panel.could_miss(row.correct, 0.05).unwrap();
        assert!((missed - row.could_miss).abs() < 1e-7, "{} {missed}", row.could_miss);
    }
}

#[test]
fn every_least_count_agrees_with_a_third_library() {
    for design in [Design::Triangle, Design::PairedOneSided] {
        for tasters in 1..=200 {
            let panel = Panel::new(design, tasters).unwrap();
            let binomial = Binomial::new(design.guess(), u64::from(tasters)).unwrap();
            let found = panel.least_for_difference(0.05).unwrap();
            let expected = (1..=tasters).find(|c| binomial.sf(u64::from(c - 1)) <= 0.05);
            assert_eq!(found, expected, "{design:?} {tasters}");
        }
    }
}

/// Minimum counts at 5 %, one-sided and two-sided, computed with exact fractions.
#[test]
fn paired_counts_are_exact() {
    let computed =
        [(6, 6, 6), (9, 8, 8), (11, 9, 10), (23, 16, 17), (30, 20, 21), (53, 33, 35), (60, 37, 39)];
    for (tasters, one, two) in computed {
        let least =
            |design| Panel::new(design, tasters).unwrap().least_for_difference(0.05).unwrap();
        assert_eq!(least(Design::PairedOneSided), Some(one), "{tasters}");
        assert_eq!(least(Design::PairedTwoSided), Some(two), "{tasters}");
    }
}

/// Maximum counts for similarity, computed with an exact binomial.
#[test]
fn similarity_counts_are_exact() {
    let computed = [
        (18, 0.2, 0.05, None),
        (18, 0.3, 0.1, Some(6)),
        (24, 0.3, 0.05, Some(8)),
        (30, 0.2, 0.05, None),
        (30, 0.2, 0.1, Some(10)),
        (30, 0.3, 0.05, Some(11)),
        (48, 0.5, 0.1, Some(27)),
        (60, 0.3, 0.05, Some(25)),
        (96, 0.4, 0.05, Some(49)),
    ];
    for (tasters, share, beta, most) in computed {
        let found = triangle(tasters).most_for_similarity(share, beta).unwrap();
        assert_eq!(found, most, "{tasters} {share} {beta}");
    }
}

/// Panel sizes, computed by trying every size with an exact binomial.
#[test]
fn panel_sizes_are_exact() {
    let computed = [
        (0.05, 0.05, 0.3, 66, 29),
        (0.05, 0.10, 0.3, 53, 24),
        (0.20, 0.05, 0.3, 39, 16),
        (0.20, 0.05, 0.2, 86, 33),
        (0.05, 0.05, 0.5, 23, 12),
    ];
    for (alpha, beta, share, tasters, correct) in computed {
        let found = tasters_needed(Design::Triangle, alpha, beta, share).unwrap();
        assert_eq!(found, Needed { tasters, correct });
    }
}

/// Power at α 5 % when 30 % can tell, computed with an exact binomial.
#[test]
fn small_panels_have_little_power() {
    for (tasters, power) in [(6, 0.14), (12, 0.26), (24, 0.55), (30, 0.71), (48, 0.88), (60, 0.92)]
    {
        let found = triangle(tasters).power(0.05, 0.3).unwrap();
        assert!((found - power).abs() < 0.006, "{tasters}: {found}");
    }
}

#[test]
fn a_panel_of_two_can_never_find_a_difference() {
    assert_eq!(triangle(2).least_for_difference(0.05).unwrap(), None);
    assert!(triangle(2).power(0.05, 0.9).unwrap().abs() < 1e-12);
}

#[test]
fn what_cannot_be_is_refused() {
    assert!(matches!(Panel::new(Design::Triangle, 0), Err(PanelError::Tasters { .. })));
    assert!(matches!(Panel::new(Design::Triangle, 10_001), Err(PanelError::Tasters { .. })));
    assert!(matches!(triangle(5).p_value(6), Err(PanelError::Correct { .. })));
    assert!(matches!(triangle(5).least_for_difference(0.0), Err(PanelError::Risk(_))));
    assert!(matches!(triangle(5).least_for_difference(f64::NAN), Err(PanelError::Risk(_))));
    assert!(matches!(triangle(5).most_for_similarity(1.5, 0.05), Err(PanelError::Share(_))));
    let hopeless = tasters_needed(Design::Triangle, 0.001, 0.001, 0.01);
    assert!(matches!(hopeless, Err(PanelError::Tasters { .. })));
}

#[test]
fn a_two_sided_test_does_not_mind_which_side_is_counted() {
    let panel = Panel::new(Design::PairedTwoSided, 30).unwrap();
    let (ten, twenty) = (panel.p_value(10).unwrap(), panel.p_value(20).unwrap());
    assert!((ten - twenty).abs() < 1e-12, "{ten} {twenty}");
    assert!((panel.p_value(15).unwrap() - 1.0).abs() < 1e-12);
}
