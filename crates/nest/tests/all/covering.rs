//! Patches on a roll: short, in the pattern, along the nap, and judged.

use nest::Effort;
use nest::covering::{Cloth, CoveringError, CoveringFault, Laid, Patch, PlacedPatch, lay, verify};
use proptest::prelude::*;

const EFFORT: Effort = Effort { evaluations: 20_000, starts: 1, seed: 1 };

const fn plain(width: i64) -> Cloth {
    Cloth { width, longest: None, repeat: None, repeat_across: None }
}

fn patch(length: i64, width: i64) -> Patch {
    Patch { mark: format!("{length} x {width}"), length, width, may_turn: false, phase: None }
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

#[test]
fn a_pattern_starts_every_piece_and_goes_on_over_a_seam() {
    let cloth = Cloth { repeat: Some(36), repeat_across: Some(24), ..plain(100) };
    // Two panels of one piece: the second begins 60 from its left side, 12 into the pattern across.
    let panels = [Patch { phase: Some(0), ..patch(50, 60) }, Patch { phase: Some(12), ..patch(50, 40) }];
    let laid = lay(&cloth, &panels, &EFFORT).unwrap();
    // 60 + 40 would fill the width, but the second can begin at 12, 36, 60 … only: at 60 it just fits.
    assert_eq!(laid.length(), 50);
    let off = [Patch { phase: Some(0), ..patch(50, 61) }, Patch { phase: Some(13), ..patch(50, 39) }];
    assert_eq!(lay(&cloth, &off, &EFFORT).unwrap().length(), 50);
    let far = [Patch { phase: Some(0), ..patch(50, 62) }, Patch { phase: Some(13), ..patch(50, 38) }];
    // It would have to begin at 85 behind the first: it starts the next repeat, at 72.
    assert_eq!(lay(&cloth, &far, &EFFORT).unwrap().length(), 122);
}

#[test]
fn short_rolls_are_filled_one_after_another() {
    let cloth = Cloth { longest: Some(100), ..plain(50) };
    let laid = lay(&cloth, &[patch(60, 50), patch(60, 50), patch(40, 50)], &EFFORT).unwrap();
    assert_eq!((laid.rolls.len(), laid.length(), laid.least), (2, 160, 160));
    let too_long = lay(&cloth, &[patch(101, 10)], &EFFORT);
    assert_eq!(too_long, Err(CoveringError::TooLong { mark: "101 x 10".into() }));
    let too_wide = lay(&cloth, &[patch(10, 51)], &EFFORT);
    assert_eq!(too_wide, Err(CoveringError::TooWide { mark: "10 x 51".into() }));
    assert_eq!(lay(&cloth, &[], &EFFORT), Err(CoveringError::Count { count: 0 }));
    assert_eq!(lay(&plain(0), &[patch(1, 1)], &EFFORT), Err(CoveringError::Size));
}

#[test]
fn the_judge_sees_every_fault() {
    let cloth = Cloth { repeat: Some(10), repeat_across: Some(5), ..plain(50) };
    let patches = [Patch { phase: Some(0), ..patch(20, 30) }, patch(20, 20)];
    let at = |patch, x, y| PlacedPatch { patch, x, y, turned: false };
    let judge = |rolls: Vec<PlacedPatch>| {
        verify(&cloth, &patches, &Laid { rolls: vec![rolls], used: vec![40], least: 0 })
    };
    assert_eq!(judge(vec![at(0, 0, 0), at(1, 0, 30)]), Ok(()));
    assert_eq!(judge(vec![at(0, 0, 0)]), Err(CoveringFault::Count(1)));
    assert_eq!(judge(vec![at(0, 0, 0), at(1, 0, 31)]), Err(CoveringFault::Outside(1)));
    assert_eq!(judge(vec![at(0, 0, 0), at(1, 30, 0)]), Err(CoveringFault::Outside(1)));
    assert_eq!(judge(vec![at(0, 0, 0), at(1, 0, 29)]), Err(CoveringFault::Overlap(0, 1)));
    assert_eq!(judge(vec![at(0, 0, 2), at(1, 20, 0)]), Err(CoveringFault::Pattern(0)));
    assert_eq!(judge(vec![at(0, 5, 0), at(1, 0, 30)]), Err(CoveringFault::Pattern(0)));
    let turned = PlacedPatch { turned: true, ..at(1, 0, 30) };
    assert_eq!(judge(vec![at(0, 0, 0), turned]), Err(CoveringFault::Nap(1)));
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(60))]

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
}
