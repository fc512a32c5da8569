//! Patches on a roll: short, in the pattern, along the nap, and judged.

use nest::Effort;
use nest::covering::{Cloth, CoveringError, CoveringFault, InPattern, Laid, Patch, PlacedPatch, lay, verify};
use proptest::prelude::*;

const EFFORT: Effort = Effort { evaluations: 20_000, starts: 1, seed: 1 };

const fn plain(width: i64) -> Cloth {
    Cloth { width, longest: None, repeat: None, repeat_across: None, squaring: 0 }
}

fn patch(length: i64, width: i64) -> Patch {
    Patch { mark: format!("{length} x {width}"), length, width, may_turn: false, pattern: None }
}

/// A panel that begins so far from the left side of its piece.
fn panel(length: i64, width: i64, piece: usize, begins: i64) -> Patch {
    Patch { pattern: Some(InPattern { piece, begins }), ..patch(length, width) }
}

#[test]
fn pieces_side_by_side_are_proved_least() {
    // 60 + 40 fill the width; two rows of 50 are all there is.
    let patches = [patch(50, 60), patch(50, 40), patch(50, 60), patch(50, 40)];
    let laid = lay(&plain(100), &patches, &EFFORT).unwrap();
    assert_eq!((laid.length(), laid.least, laid.is_proved()), (100, 100, true));
}

#[test]
fn a_nap_costs_length_and_is_kept() {
    let mut long = patch(30, 90);
    let cloth = plain(100);
    let kept = lay(&cloth, &[long.clone(), long.clone(), long.clone()], &EFFORT).unwrap();
    assert_eq!((kept.length(), kept.least), (90, 90));
    long.may_turn = true;
    let turned = lay(&cloth, &[long.clone(), long.clone(), long.clone()], &EFFORT).unwrap();
    assert_eq!(turned.length(), 90);
    long.length = 40;
    let both = lay(&cloth, &[long.clone(), long], &EFFORT).unwrap();
    // Two of 40 × 90 lie side by side lengthwise in 90; across they would take 80.
    assert_eq!(both.length(), 80);
}

#[test]
fn a_turn_that_ends_later_alone_may_be_the_shorter_for_all() {
    let wide = Patch { may_turn: true, ..patch(50, 60) };
    let laid = lay(&plain(100), &[wide.clone(), wide], &EFFORT).unwrap();
    assert_eq!((laid.length(), laid.is_proved()), (60, true));
}

/// A turn that does not go on the width, or on what is left of a roll, once opened another roll.
#[test]
fn a_turn_that_does_not_go_on_opens_no_roll() {
    let turning = |length, width| Patch { may_turn: true, ..patch(length, width) };
    let patches = [turning(96, 70), turning(100, 30), turning(100, 30), turning(100, 30)];
    let laid = lay(&plain(72), &patches, &EFFORT).unwrap();
    assert_eq!((laid.rolls.len(), laid.length(), laid.is_proved()), (1, 296, false));
}

/// Two of the three narrow ones lie beside one another, and every row begins with a repeat of 18: 108 + 54 + 40. The repeats that
/// pieces reach into prove 184, their area alone 143.
#[test]
fn repeats_count_in_the_bound_for_narrow_pieces_too() {
    let cloth = Cloth { repeat: Some(18), longest: Some(240), ..plain(72) };
    let patches = [patch(96, 70), patch(40, 30), patch(40, 30), patch(40, 30)];
    let laid = lay(&cloth, &patches, &EFFORT).unwrap();
    assert_eq!((laid.rolls.len(), laid.length(), laid.least), (1, 202, 184));
}

#[test]
fn a_pattern_starts_every_piece_and_goes_on_over_a_seam() {
    let cloth = Cloth { repeat: Some(36), repeat_across: Some(24), ..plain(100) };
    // Two panels of one piece: the second begins 60 from its left side, 12 into the pattern across.
    let panels = [panel(50, 60, 0, 0), panel(50, 40, 0, 12)];
    let laid = lay(&cloth, &panels, &EFFORT).unwrap();
    // 60 + 40 fill the width: with the first at 0 the second can begin at 12, 36, 60 …, and 60 just fits.
    assert_eq!(laid.length(), 50);
    let off = [panel(50, 61, 0, 0), panel(50, 39, 0, 13)];
    assert_eq!(lay(&cloth, &off, &EFFORT).unwrap().length(), 50);
    let far = [panel(50, 62, 0, 0), panel(50, 38, 0, 13)];
    // It would have to begin at 85 behind the first: it starts the next repeat, at 72.
    assert_eq!(lay(&cloth, &far, &EFFORT).unwrap().length(), 122);
}

/// The second panel begins 11 into a pattern of 12. Both start 1 into it, and the second lies at the roll's edge: 41 and 30 side
/// by side fill the 71. With the first panel at the edge the other would lie at 11, and the strip at its side be 19.
#[test]
fn where_in_the_pattern_a_piece_begins_is_free() {
    let cloth = Cloth { repeat_across: Some(12), ..plain(71) };
    let patches = [panel(96, 61, 0, 0), panel(96, 41, 0, 59), patch(96, 30)];
    let laid = lay(&cloth, &patches, &EFFORT).unwrap();
    assert_eq!((laid.length(), laid.is_proved()), (192, true));
    // The panel that leaves no play settles the start for the other, and two that leave none contradict one another.
    let tight = [panel(50, 60, 0, 0), panel(50, 71, 0, 65)];
    assert_eq!(lay(&cloth, &tight, &EFFORT).unwrap().length(), 100);
    let both = [patch(10, 10), panel(50, 71, 0, 0), panel(50, 71, 0, 65)];
    let mark = "50 x 71".to_owned();
    assert_eq!(lay(&cloth, &both, &EFFORT), Err(CoveringError::OffPattern { patch: 1, mark }));
}

#[test]
fn short_rolls_are_filled_one_after_another() {
    let cloth = Cloth { longest: Some(100), ..plain(50) };
    let laid = lay(&cloth, &[patch(60, 50), patch(60, 50), patch(40, 50)], &EFFORT).unwrap();
    assert_eq!((laid.rolls.len(), laid.length(), laid.least), (2, 160, 160));
    let too_long = lay(&cloth, &[patch(101, 10)], &EFFORT);
    assert_eq!(too_long, Err(CoveringError::TooLong { patch: 0, mark: "101 x 10".into() }));
    let too_wide = lay(&cloth, &[patch(10, 51)], &EFFORT);
    assert_eq!(too_wide, Err(CoveringError::TooWide { patch: 0, mark: "10 x 51".into() }));
    assert_eq!(lay(&cloth, &[], &EFFORT), Err(CoveringError::Count { count: 0 }));
    assert_eq!(lay(&plain(0), &[patch(1, 1)], &EFFORT), Err(CoveringError::Size));
}

/// Squaring takes 5 of every roll: 60 + 5 + 40 + 5 on two, where 95 of a roll of 100 can be used, proved; a piece of 96 goes on none.
#[test]
fn squaring_counts_once_a_roll() {
    let cloth = Cloth { longest: Some(100), squaring: 5, ..plain(50) };
    let laid = lay(&cloth, &[patch(60, 50), patch(40, 50)], &EFFORT).unwrap();
    assert_eq!((laid.used.clone(), laid.least, laid.is_proved()), (vec![65, 45], 110, true));
    assert_eq!(laid.rolls[0][0].x, 0, "places are measured from the squared end");
    let one = Cloth { longest: None, ..cloth };
    let laid = lay(&one, &[patch(60, 50), patch(40, 50)], &EFFORT).unwrap();
    assert_eq!((laid.used, laid.least), (vec![105], 105));
    let too_long = lay(&cloth, &[patch(96, 10)], &EFFORT);
    assert_eq!(too_long, Err(CoveringError::TooLong { patch: 0, mark: "96 x 10".into() }));
    for squaring in [-1, 100] {
        assert_eq!(lay(&Cloth { squaring, ..cloth }, &[patch(1, 1)], &EFFORT), Err(CoveringError::Size));
    }
    let at = PlacedPatch { patch: 0, x: 0, y: 0, turned: false };
    let short = Laid { rolls: vec![vec![at]], used: vec![60], least: 0 };
    assert_eq!(verify(&cloth, &[patch(60, 50)], &short), Err(CoveringFault::Outside(0)));
}

#[test]
fn the_judge_sees_every_fault() {
    let cloth = Cloth { repeat: Some(10), repeat_across: Some(5), ..plain(50) };
    let patches = [panel(20, 30, 0, 0), patch(20, 20)];
    let at = |patch, x, y| PlacedPatch { patch, x, y, turned: false };
    let judge = |rolls: Vec<PlacedPatch>| {
        verify(&cloth, &patches, &Laid { rolls: vec![rolls], used: vec![40], least: 0 })
    };
    assert_eq!(judge(vec![at(0, 0, 0), at(1, 0, 30)]), Ok(()));
    assert_eq!(judge(vec![at(0, 0, 0)]), Err(CoveringFault::Count(1)));
    assert_eq!(judge(vec![at(0, 0, 0), at(1, 0, 31)]), Err(CoveringFault::Outside(1)));
    assert_eq!(judge(vec![at(0, 0, 0), at(1, 30, 0)]), Err(CoveringFault::Outside(1)));
    assert_eq!(judge(vec![at(0, 0, 0), at(1, 0, 29)]), Err(CoveringFault::Overlap(0, 1)));
    let of_one = [panel(20, 30, 0, 0), panel(20, 20, 0, 3)];
    let judge_panels = |second: i64| {
        let placed = vec![at(0, 0, 0), at(1, 20, second)];
        verify(&cloth, &of_one, &Laid { rolls: vec![placed], used: vec![40], least: 0 })
    };
    assert_eq!((judge_panels(3), judge_panels(8)), (Ok(()), Ok(())));
    assert_eq!(judge_panels(2), Err(CoveringFault::Pattern(1)));
    assert_eq!(judge(vec![at(0, 5, 0), at(1, 0, 30)]), Err(CoveringFault::Pattern(0)));
    let turned = PlacedPatch { turned: true, ..at(1, 0, 30) };
    assert_eq!(judge(vec![at(0, 0, 0), turned]), Err(CoveringFault::Nap(1)));
}

fn of_sizes(sizes: &[(i64, i64, bool)]) -> Vec<Patch> {
    sizes.iter().map(|&(length, width, may_turn)| Patch { may_turn, ..patch(length, width) }).collect()
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(60))]

    /// Panels of one piece meet in the pattern wherever it starts, and no start is refused that would do.
    #[test]
    fn panels_in_a_pattern_are_sound(
        repeat in 1_i64..30,
        pieces in proptest::collection::vec((1_i64..60, 10_i64..90), 1..4),
    ) {
        let cloth = Cloth { repeat_across: Some(repeat), ..plain(60) };
        let halves = pieces.iter().enumerate().flat_map(|(piece, &(length, width))| {
            [panel(length, width / 2, piece, 0), panel(length, width - width / 2, piece, width / 2)]
        });
        let patches: Vec<Patch> = halves.collect();
        if let Ok(laid) = lay(&cloth, &patches, &Effort { evaluations: 2_000, ..EFFORT }) {
            prop_assert_eq!(verify(&cloth, &patches, &laid), Ok(()));
            prop_assert!(laid.least <= laid.length());
        }
    }

    /// Every layout is sound, and never shorter than what is proved to be the least.
    #[test]
    fn layouts_are_sound_and_above_the_bound(
        sizes in proptest::collection::vec((1_i64..60, 1_i64..50, any::<bool>()), 1..12),
        repeat in proptest::option::of(1_i64..20),
    ) {
        let cloth = Cloth { repeat, ..plain(50) };
        let patches: Vec<Patch> = sizes
            .iter()
            .map(|&(length, width, may_turn)| Patch { may_turn: may_turn && repeat.is_none(), ..patch(length, width) })
            .collect();
        let laid = lay(&cloth, &patches, &EFFORT).unwrap();
        prop_assert_eq!(verify(&cloth, &patches, &laid), Ok(()));
        prop_assert!(laid.least <= laid.length());
    }

    /// No way of cutting is shorter than the bound: every place of few small patches is tried.
    #[test]
    fn nothing_is_shorter_than_the_bound(
        sizes in proptest::collection::vec((1_i64..6, 1_i64..6, any::<bool>()), 1..4),
        width in 5_i64..7,
        repeat in proptest::option::of(2_i64..5),
        squaring in 0_i64..4,
    ) {
        let cloth = Cloth { repeat, squaring, ..plain(width) };
        let patches = of_sizes(&sizes);
        let laid = lay(&cloth, &patches, &Effort { evaluations: 2_000, ..EFFORT }).unwrap();
        let shortest = (1..=laid.length()).find(|&used| goes_on(&cloth, &patches, used, &mut Vec::new())).unwrap();
        let shortest = shortest + squaring;
        prop_assert!(laid.least <= shortest, "{} is not below {shortest}", laid.least);
        prop_assert_eq!(laid.rolls.len(), 1);
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(60))]

    /// Nor of several rolls that are not long enough in one: every way of dealing few small patches out, to as many rolls as are used or fewer.
    #[test]
    fn nothing_on_several_rolls_is_shorter_than_the_bound(
        sizes in proptest::collection::vec((1_i64..6, 1_i64..6, any::<bool>()), 1..5),
        longest in 6_i64..9,
        repeat in proptest::option::of(2_i64..4),
        squaring in 0_i64..2,
    ) {
        let cloth = Cloth { repeat, squaring, longest: Some(longest), ..plain(5) };
        let patches = of_sizes(&sizes);
        let laid = lay(&cloth, &patches, &Effort { evaluations: 2_000, ..EFFORT }).unwrap();
        let shortest = shortest_of(&cloth, &patches, laid.rolls.len(), &mut vec![Vec::new(); laid.rolls.len()]);
        prop_assert!(laid.least <= shortest.unwrap(), "{} is not below {:?}", laid.least, shortest);
        prop_assert!(shortest.unwrap() <= laid.length());
    }
}

/// The least length used by dealing patches out to so many rolls, squaring counted; none where they do not go on them.
fn shortest_of(cloth: &Cloth, patches: &[Patch], rolls: usize, dealt: &mut Vec<Vec<Patch>>) -> Option<i64> {
    let Some((first, rest)) = patches.split_first() else {
        let used = dealt.iter().filter(|own| !own.is_empty()).map(|own| {
            let room = cloth.room();
            let used = (1..=room).find(|&used| goes_on(cloth, own, used, &mut Vec::new()))?;
            Some(used + cloth.squaring)
        });
        return used.sum();
    };
    let mut least: Option<i64> = None;
    for roll in 0..rolls {
        dealt[roll].push(first.clone());
        let found = shortest_of(cloth, rest, rolls, dealt);
        dealt[roll].pop();
        least = least.into_iter().chain(found).min();
    }
    least
}

/// Whether all patches go on so much of one roll, every place tried.
fn goes_on(cloth: &Cloth, patches: &[Patch], used: i64, taken: &mut Vec<[i64; 4]>) -> bool {
    let Some(patch) = patches.get(taken.len()) else { return true };
    let turns = [false, true].into_iter().filter(|&turned| !turned || patch.may_turn);
    for (length, width) in turns.map(|turned| patch.size(turned)) {
        for x in (0..=used - length).filter(|x| x % cloth.repeat.unwrap_or(1) == 0) {
            for y in 0..=cloth.width - width {
                let [right, top] = [x + length, y + width];
                let clear = |&[a, b, c, d]: &[i64; 4]| right <= a || c <= x || top <= b || d <= y;
                if !taken.iter().all(clear) {
                    continue;
                }
                taken.push([x, y, right, top]);
                if goes_on(cloth, patches, used, taken) {
                    return true;
                }
                taken.pop();
            }
        }
    }
    false
}
