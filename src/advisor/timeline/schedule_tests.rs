//! Schedules against brute force, and the rules that every schedule keeps.

use rand_core::{Rng as _, SeedableRng as _};
use rand_pcg::Pcg64;

use super::*;
use crate::quantity::Temperature;

/// Times that differ by less are the same [s].
const A_MOMENT: f64 = 1e-6;

fn hands(length: f64) -> Phase {
    Phase { length, hands: true }
}

fn alone(length: f64) -> Phase {
    Phase { length, hands: false }
}

fn job(phases: &[Phase], after: &[usize], gear: &[usize]) -> Job {
    Job { phases: phases.to_vec(), after: after.to_vec(), gear: gear.to_vec(), ..Job::default() }
}

fn rules(gear: &[usize]) -> Rules {
    Rules { gear: gear.to_vec(), ..Rules::default() }
}

fn end(jobs: &[Job], rules: &Rules) -> f64 {
    end_of(&schedule(jobs, rules).1)
}

/// Every order in which no job comes before its forerunners.
fn orders(jobs: &[Job], chosen: &mut Vec<usize>, all: &mut Vec<Vec<usize>>) {
    if chosen.len() == jobs.len() {
        all.push(chosen.clone());
        return;
    }
    for next in 0..jobs.len() {
        let open = jobs[next].after.iter().all(|before| chosen.contains(before));
        if open && !chosen.contains(&next) {
            chosen.push(next);
            orders(jobs, chosen, all);
            chosen.pop();
        }
    }
}

/// The soonest end of all: some order of placing jobs as early as they fit gives it.
fn soonest(jobs: &[Job], rules: &Rules) -> f64 {
    let mut all = Vec::new();
    orders(jobs, &mut Vec::new(), &mut all);
    let ends = all.iter().map(|order| end_of(&place_all(jobs, order, rules)));
    ends.fold(f64::INFINITY, f64::min)
}

#[test]
fn two_jobs_without_hands_run_side_by_side() {
    let jobs =
        [job(&[hands(5.0), alone(60.0)], &[], &[]), job(&[hands(5.0), alone(30.0)], &[], &[])];
    assert!((end(&jobs, &rules(&[])) - 65.0).abs() < A_MOMENT);
}

#[test]
fn one_ring_serves_one_pot_and_two_rings_two() {
    let jobs = [job(&[alone(30.0)], &[], &[0]), job(&[alone(20.0)], &[], &[0])];
    assert!((end(&jobs, &rules(&[1])) - 50.0).abs() < A_MOMENT);
    assert!((end(&jobs, &rules(&[2])) - 30.0).abs() < A_MOMENT);
}

#[test]
fn an_oven_serves_two_jobs_at_one_temperature_and_one_at_two() {
    let set = |celsius: f64, every_shelf| OvenUse {
        set_to: Some(Temperature::from_celsius(celsius).kelvin()),
        every_shelf,
    };
    let job_with = |oven| Job { oven, ..job(&[alone(40.0)], &[], &[0]) };
    let at = |celsius| job_with(set(celsius, false));
    let oven = Rules { one_space: vec![true], ..rules(&[2]) };
    assert!((end(&[at(150.0), at(152.0)], &oven) - 40.0).abs() < A_MOMENT);
    assert!((end(&[at(150.0), at(90.0)], &oven) - 80.0).abs() < A_MOMENT);
    let held = place_all(&[at(150.0), at(90.0)], &[0, 1], &oven)[1].held;
    assert_eq!(held, Some(Held::Gear(0, 0)));
    // The rings of a hob are set each for itself, and what asks for no temperature goes along.
    assert!((end(&[at(150.0), at(90.0)], &rules(&[2])) - 40.0).abs() < A_MOMENT);
    let any = job(&[alone(40.0)], &[], &[0]);
    assert!((end(&[at(150.0), any], &oven) - 40.0).abs() < A_MOMENT);
    // A batch spread over every tray keeps even its like out.
    assert!((end(&[at(150.0), job_with(set(150.0, true))], &oven) - 80.0).abs() < A_MOMENT);
    // Three at one temperature still find two shelves only.
    assert!((end(&[at(150.0), at(150.0), at(150.0)], &oven) - 80.0).abs() < A_MOMENT);
}

#[test]
fn a_job_that_stands_waits_for_the_cook_and_one_that_does_not_begins_later() {
    let busy = job(&[hands(30.0)], &[], &[]);
    let rigid = job(&[alone(10.0), hands(5.0)], &[], &[]);
    let standing = Job { stands: true, ..rigid.clone() };
    let order = [0, 1];
    let placed = place_all(&[busy.clone(), rigid], &order, &rules(&[]));
    assert_eq!((placed[1].start(), placed[1].held), (20.0, Some(Held::Hands(0))));
    let placed = place_all(&[busy, standing], &order, &rules(&[]));
    assert_eq!((placed[1].start(), placed[1].end()), (0.0, 35.0));
}

#[test]
fn hands_stay_out_of_the_night_where_the_food_can_wait() {
    let hour = 3600.0;
    let frozen =
        Job { stands: true, ..job(&[hands(hour), alone(14.0 * hour), hands(hour)], &[], &[]) };
    let at_nine = Rules { time_of_day: Some(9.0 * hour), ..Rules::default() };
    let placed = place_all(&[frozen], &[0], &at_nine);
    // Frozen at midnight, taken out at seven.
    assert!((placed[0].spans[2].from - 22.0 * hour).abs() < A_MOMENT);
    let boil = job(&[hands(4.0 * hour)], &[], &[]);
    let at_eight = Rules { time_of_day: Some(20.0 * hour), ..Rules::default() };
    let placed = place_all(&[boil], &[0], &at_eight);
    assert_eq!((placed[0].start(), placed[0].held), (11.0 * hour, Some(Held::Night)));
}

#[test]
fn work_that_no_night_can_spare_goes_ahead() {
    let hour = 3600.0;
    let every_four_hours: Vec<Phase> =
        (0..8).flat_map(|_| [hands(hour), alone(3.0 * hour)]).collect();
    let at_nine = Rules { time_of_day: Some(9.0 * hour), ..Rules::default() };
    let placed = place_all(&[job(&every_four_hours, &[], &[])], &[0], &at_nine);
    assert_eq!(placed[0].spans.len(), 16);
}

/// Jobs drawn at random: up to seven, with up to three phases, forerunners and two kinds of gear.
fn drawn(seed: u64) -> Vec<Job> {
    let mut generator = Pcg64::seed_from_u64(seed);
    let mut below = |count: u64| generator.next_u64() % count;
    let mut minutes = [3.0, 5.0, 10.0, 20.0, 45.0, 90.0].into_iter().cycle();
    let count = 3 + below(4);
    let mut jobs = Vec::new();
    for index in 0..count {
        let mut length = || minutes.nth(usize::try_from(below(6)).unwrap()).unwrap();
        let phases = match index % 3 {
            0 => vec![hands(length()), alone(length()), hands(length())],
            1 => vec![hands(length())],
            _ => vec![hands(length()), alone(length())],
        };
        let mut after: Vec<usize> = Vec::new();
        if index > 0 && below(2) == 0 {
            after.push(usize::try_from(below(index)).unwrap());
        }
        let gear = vec![usize::try_from(below(2)).unwrap()];
        jobs.push(Job { phases, stands: below(2) == 0, after, gear, ..Job::default() });
    }
    jobs
}

#[test]
fn schedules_come_near_to_the_soonest_end() {
    let kitchen = rules(&[1, 2]);
    let (mut reached, mut worst) = (0, 1.0_f64);
    for seed in 0..100 {
        let jobs = drawn(seed);
        let (found, best) = (end(&jobs, &kitchen), soonest(&jobs, &kitchen));
        assert!(found >= best - SAME_TIME, "seed {seed}: {found} before {best}");
        worst = worst.max(found / best);
        reached += i32::from(found <= best + SAME_TIME);
    }
    assert!(reached >= 70, "only {reached} of 100 end as soon as can be");
    assert!(worst < 1.5, "the worst takes {worst} times as long as need be");
}

#[test]
fn no_schedule_has_three_hands_or_too_few_rings() {
    let kitchen = rules(&[1, 2]);
    for seed in 100..200 {
        let jobs = drawn(seed);
        let (_, placed) = schedule(&jobs, &kitchen);
        let mut at_work: Vec<Span> =
            placed.iter().flat_map(|one| one.spans.clone()).filter(|span| span.hands).collect();
        at_work.sort_by(|a, b| a.from.total_cmp(&b.from));
        assert!(at_work.windows(2).all(|pair| pair[1].from >= pair[0].to - SAME_TIME));
        for (index, job) in jobs.iter().enumerate() {
            for before in &job.after {
                assert!(placed[index].start() >= placed[*before].end() - SAME_TIME);
            }
        }
        for (gear, count) in kitchen.gear.iter().enumerate() {
            let users: Vec<&Placed> = (0..jobs.len())
                .filter(|index| jobs[*index].gear.contains(&gear))
                .map(|index| &placed[index])
                .collect();
            for user in &users {
                let at = user.start();
                let there =
                    users.iter().filter(|o| o.start() <= at && o.end() > at + SAME_TIME).count();
                assert!(there <= *count, "seed {seed}: {there} at gear {gear}");
            }
        }
    }
}

#[test]
fn the_same_jobs_give_the_same_schedule() {
    let kitchen = rules(&[1, 2]);
    for seed in 200..220 {
        assert_eq!(schedule(&drawn(seed), &kitchen), schedule(&drawn(seed), &kitchen));
    }
}
