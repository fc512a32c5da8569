//! Seams of parts that are alike on both sides, and of mirror images: their numbers are the same, as printed.
#![allow(clippy::unwrap_used, reason = "a test may stop at what should not happen")]

use crate::common::{inches, making};
use fold::refold::{self, SeamGap};
use shapes::pan::{Pan, PanPlan, Rim};
use shapes::{Chosen, CornerStyle, Making, ReliefHole, ReliefStyle};
use units::{Angle, Length};

fn pan(lean: [f64; 4], rim: Rim) -> Pan {
    Pan {
        plan: PanPlan::Outside { length: inches("44"), width: inches("20") },
        height: inches("8"),
        rims: vec![rim],
        lean: lean.map(Angle::from_degrees).to_vec(),
        edge: shapes::edge::EdgeEnd::Plain,
    }
}

fn styles() -> Vec<CornerStyle> {
    let chosen = || [Chosen::LongSides, Chosen::ShortSides].into_iter();
    let butts = chosen().map(|through| CornerStyle::Butt { through });
    let laps = chosen().flat_map(|carried_by| {
        [true, false].map(|outside| CornerStyle::Lap {
            width: inches("1/2"),
            carried_by: carried_by.clone(),
            outside,
        })
    });
    let tabs = chosen().map(|tabs_on| CornerStyle::TabAndSlot {
        tab: inches("3/8"),
        clearance: inches("1/32"),
        count: 2,
        tabs_on,
    });
    std::iter::once(CornerStyle::Open).chain(butts).chain(laps).chain(tabs).collect()
}

/// The numbers of a seam as they are printed.
fn printed(seam: &SeamGap, making: &Making) -> String {
    let print = |mm: f64| Length::from_millimetres(mm).print(making.style);
    format!(
        "{} long, least {}, largest {}, in {}, cut off {:?}, {:.1}°",
        print(seam.length_mm),
        print(seam.least_mm),
        print(seam.largest_mm),
        print(seam.interference_mm),
        seam.at_cut_off_mm.map(print),
        seam.inside_angle_rad.to_degrees()
    )
}

/// What every seam reads, its corner exchanged for the one that `image` gives.
fn read(pan: &Pan, making: &Making, image: [&str; 4]) -> Option<Vec<(String, String)>> {
    let shaped = pan.shape(making).ok()?;
    let flat = shaped.unfold().ok()?;
    let proof = refold::prove(&shaped.part, &flat).ok()?;
    let name = |seam: &SeamGap| {
        let (what, corner) = seam.name.rsplit_once(' ').unwrap();
        format!("{what} {}", image[usize::from(corner.as_bytes()[0] - b'A')])
    };
    let mut read: Vec<_> = proof.seams.iter().map(|seam| (name(seam), printed(seam, making))).collect();
    read.sort();
    Some(read)
}

#[test]
fn a_mirror_image_reads_the_same_numbers_at_the_mirrored_corners() {
    let reliefs = [ReliefStyle::Square, ReliefStyle::TearDrop { hole: ReliefHole::Zone }];
    let same = ["A", "B", "C", "D"];
    let leans = [[8.0, 25.0, 8.0, 12.0], [0.0, 30.0, 10.0, 5.0], [20.0, 0.0, 0.0, 35.0]];
    let mut count = 0;
    for corner in styles() {
        for relief in reliefs {
            for rim in [Rim::None, Rim::Out(inches("1"))] {
                for [ab, bc, cd, da] in leans {
                    let making = Making {
                        corner: corner.clone(),
                        relief,
                        seam_gap: inches("1/64"),
                        ..making(".090", ".125", 0.42)
                    };
                    let Some(own) = read(&pan([ab, bc, cd, da], rim), &making, same) else { continue };
                    // Left and right exchanged, then front and back.
                    let across = read(&pan([ab, da, cd, bc], rim), &making, ["B", "A", "D", "C"]);
                    assert_eq!(across.as_ref(), Some(&own), "{corner:?} {relief:?} {rim:?}");
                    let along = read(&pan([cd, bc, ab, da], rim), &making, ["D", "C", "B", "A"]);
                    assert_eq!(along.as_ref(), Some(&own), "{corner:?} {relief:?} {rim:?}");
                    count += 1;
                }
            }
        }
    }
    assert!(60 < count, "only {count} pans were read");
}
