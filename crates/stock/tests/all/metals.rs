//! Alloys found by name, radii and weights against published figures, and the record of what a job replaced.

use proptest::prelude::*;
use stock::{
    Alloy, AlloyError, BendModel, Figure, FigureValue, Film, MetalBuilder, MetalError, Pattern, TemperBeside,
    alloys, find_alloy, least_inside_radius, nearest_inside_radius, tread_floor_weight,
};
use units::{Density, DensityUnit, Length, LengthUnit, MassPerArea, MassPerAreaUnit, MassUnit};

fn inches(number: f64) -> Length {
    Length::from_inches(number)
}

fn builder(alloy: &str, thickness: f64) -> Result<MetalBuilder, AlloyError> {
    Ok(MetalBuilder::new("skin", find_alloy(alloy)?, inches(thickness)))
}

#[test]
fn alloys_are_found_by_name_and_temper() {
    let found = find_alloy("5052-H32").unwrap();
    assert_eq!((found.alloy.name.as_str(), found.temper), ("5052", Some("H32")));
    for text in ["5052-h32", " 5052  H32 ", "5052 - H32"] {
        assert_eq!(find_alloy(text), Ok(found), "{text}");
    }
    assert_eq!(find_alloy("6061").unwrap().temper, None);
    assert_eq!(find_alloy("Mild Steel").unwrap().alloy.name, "mild steel");
    assert_eq!(find_alloy("304").unwrap().alloy.name, "stainless 304");
    for name in
        ["1100", "3003", "5052", "5083", "5086", "6061", "mild steel", "stainless 304", "stainless 316"]
    {
        assert_eq!(find_alloy(name).unwrap().alloy.name, name);
    }
}

#[test]
fn unknown_alloys_and_tempers_list_the_known() {
    let message = find_alloy("5053-H32").unwrap_err().to_string();
    assert_eq!(
        message,
        "no alloy `5053-H32` is known; known are 1100, 3003, 5052, 5083, 5086, 6061, mild steel, stainless 304, \
         stainless 316"
    );
    let message = find_alloy("5052-T6").unwrap_err().to_string();
    assert_eq!(message, "no temper `T6` of 5052 is known; known are O, H32, H34, H36, H38");
    let message = find_alloy("mild steel-H32").unwrap_err().to_string();
    assert_eq!(message, "no temper `H32` of mild steel is known; known are none");
    assert!(find_alloy("").is_err());
    assert!(find_alloy(&"x".repeat(100_000)).unwrap_err().to_string().len() < 300);
}

#[test]
fn densities_agree_with_the_printed_columns() {
    // Kissell & Ferry, Aluminum Structures, table 4.3 (read), and supplier tables (read): lb/in3 to three places.
    for (name, printed) in
        [("1100", 98), ("3003", 99), ("5052", 97), ("5083", 96), ("5086", 96), ("6061", 98)]
    {
        let density = find_alloy(name).unwrap().alloy.density;
        let pounds = density.print(DensityUnit::PoundPerCubicInch, 4).parse::<f64>().unwrap();
        assert!((pounds * 1000.0 - f64::from(printed)).abs() <= 0.6, "{name} {pounds}");
    }
    // 490 lb/ft3 for steel is .28356 lb/in3 (derived).
    let steel = find_alloy("mild steel").unwrap().alloy.density;
    assert_eq!(steel.print(DensityUnit::PoundPerCubicInch, 4), "0.2836");
    let skin = find_alloy("5052").unwrap().alloy.density;
    assert_eq!(skin.print(DensityUnit::PoundPerCubicInch, 4), "0.0968");
}

#[test]
fn sheet_weights_agree_with_published_ones() {
    // 144 t rho with the printed, rounded lb/in3 (derived from table 4.3): good to the rounding of .097, .098, .099.
    for (alloy, thickness, published) in [
        ("5052", 0.125, 1.746),
        ("5052", 0.063, 0.880),
        ("5052", 0.250, 3.492),
        ("6061", 0.125, 1.764),
        ("3003", 0.125, 1.782),
        ("5086", 0.190, 2.627),
    ] {
        let metal = builder(alloy, thickness).unwrap().build().unwrap();
        let pounds = metal.weight_per_area.kilograms_per_square_metre() / 4.882_427_636;
        assert!((pounds / published - 1.0).abs() < 0.005, "{alloy} {thickness}: {pounds}");
    }
    // Metric kg/m2 = t(mm) x g/cm3 (derived): 5052 at 1.5 and 5 mm.
    for (thickness, expected) in [(1.5, "4.02"), (5.0, "13.40")] {
        let found = find_alloy("5052").unwrap();
        let metal = MetalBuilder::new("skin", found, Length::from_millimetres(thickness)).build().unwrap();
        assert_eq!(metal.weight_per_area.print(MassPerAreaUnit::KilogramPerSquareMetre, 2), expected);
    }
    // Supplier's chart (sanghvioverseasinc.com): .063 x 48 x 144 in of .101 lb/in3 is 43.98 lb. The alloy, 2014, is
    // not in our table, so it comes as a job's own.
    let alloy = Alloy::unlisted("2014", Density::read(".101 lb/in3").unwrap());
    let model = BendModel::KFactor(0.42);
    let metal = MetalBuilder::unlisted("skin", alloy, inches(0.063)).bend_model(model).build().unwrap();
    let mass = metal.weight_per_area.over(inches(48.0) * inches(144.0));
    assert_eq!(mass.print_with_unit(MassUnit::Pound, 2), "43.98 lb");
}

#[test]
fn tread_plate_weighs_its_floor_or_its_published_weight() {
    // 144 t rho (derived): 3003 at .125 is 1.78 lb/ft2, without the lugs.
    let floor = tread_floor_weight(find_alloy("3003").unwrap().alloy, inches(0.125)).unwrap();
    assert_eq!(floor.weight.print(MassPerAreaUnit::PoundPerSquareFoot, 2), "1.78");
    assert!(!floor.pattern_included);
    assert!(floor.source.contains("pattern not included"));
    // AISC Manual, raised-pattern floor plate (from memory): 1/4 in is 11.3 lb/ft2. A check that holds for 1/8 to
    // 1/2 in: about 1.05 to 1.1 lb/ft2 above 40.8 t (derived).
    let steel = find_alloy("mild steel").unwrap().alloy;
    let quarter = tread_floor_weight(steel, inches(0.25)).unwrap();
    assert_eq!(quarter.weight.print(MassPerAreaUnit::PoundPerSquareFoot, 1), "11.3");
    assert!(quarter.pattern_included);
    for thickness in [0.125, 0.1875, 0.25, 0.3125, 0.375, 0.5] {
        let pounds =
            tread_floor_weight(steel, inches(thickness)).unwrap().weight.kilograms_per_square_metre()
                / 4.88243;
        assert!((1.0..=1.15).contains(&(pounds - 40.8 * thickness)), "{thickness}");
    }
    // No row between: the flat base alone.
    assert!(!tread_floor_weight(steel, inches(0.2)).unwrap().pattern_included);
}

#[test]
fn least_inside_radii_are_those_of_the_design_manual() {
    let read = |text: &str| Length::read(text, LengthUnit::Inch).unwrap();
    let multiple = |alloy: &str, temper: &str, thickness: &str| {
        least_inside_radius(alloy, Some(temper), read(thickness)).and_then(|least| least.times_thickness)
    };
    // Aluminum Design Manual, January 2005, table 3-1.
    assert_eq!(multiple("5052", "H32", "1/8"), Some(1.5));
    assert_eq!(multiple("5052", "H32", ".063"), Some(1.0));
    assert_eq!(multiple("5052", "O", "1.5 mm"), Some(0.0));
    assert_eq!(multiple("6061", "T6", ".250"), Some(3.5));
    assert_eq!(multiple("6061", "T6", "3.2 mm"), Some(2.5));
    assert_eq!(multiple("5083", "H321", ".190"), Some(1.5));
    assert_eq!(multiple("3003", "H14", "1/2"), Some(2.5));
    // Between 1/16 and 1/8, and below the first row.
    let between = least_inside_radius("5052", Some("H32"), read(".090")).unwrap();
    assert!(between.next_thicker_row);
    assert_eq!((between.radius, between.row_thickness), (read(".135"), read("1/8")));
    assert!(!least_inside_radius("5052", Some("H32"), read(".125")).unwrap().next_thicker_row);
    assert!(!least_inside_radius("5052", Some("H32"), read(".063")).unwrap().next_thicker_row);
    assert!(!least_inside_radius("5052", Some("H32"), read("3.2 mm")).unwrap().next_thicker_row);
    // Rows that were recalled say so.
    assert!(least_inside_radius("5086", Some("H32"), read("1/4")).unwrap().source.contains("from memory"));
    // Not in the table: thicker than the last row, a temper without a row, no temper.
    assert_eq!(multiple("5052", "H32", ".625"), None);
    assert_eq!(multiple("5086", "H116", ".125"), None);
    assert_eq!(least_inside_radius("5052", None, read(".125")), None);
    // EN 10025-2, S235: 3 mm is bent to 3 mm, 5 mm to 6 mm.
    assert_eq!(least_inside_radius("mild steel", None, read("5 mm")).unwrap().radius, read("6 mm"));
    assert_eq!(least_inside_radius("mild steel", None, read("2.7 mm")).unwrap().radius, read("3 mm"));
}

#[test]
fn a_temper_without_a_row_is_told_the_nearest() {
    let read = |text: &str| Length::read(text, LengthUnit::Inch).unwrap();
    let nearest = |alloy: &str, temper: &str, thickness: &str| {
        let found = nearest_inside_radius(alloy, Some(temper), read(thickness)).unwrap();
        (found.temper.unwrap(), found.beside, found.least.times_thickness.unwrap(), found.for_thinner_sheet)
    };
    let (alike, softer) = (TemperBeside::Alike, TemperBeside::Softer);
    // Multiples of the Aluminum Design Manual, January 2005, table 3-1; degrees of temper from memory.
    assert_eq!(nearest("5083", "H116", ".190"), ("H321".to_owned(), alike, 1.5, false));
    assert_eq!(nearest("5086", "H116", ".125"), ("H32".to_owned(), alike, 1.5, false));
    assert_eq!(nearest("5086", "H36", ".125"), ("H34".to_owned(), softer, 2.0, false));
    assert_eq!(nearest("5052", "H38", ".125"), ("H34".to_owned(), softer, 2.0, false));
    assert_eq!(nearest("6061", "T651", ".125"), ("T6".to_owned(), alike, 2.5, false));
    // Halfway between two: the harder, which asks for more.
    assert_eq!(nearest("5083", "H111", ".125"), ("H321".to_owned(), TemperBeside::Harder, 1.5, false));
    assert_eq!(nearest("3003", "H22", ".125"), ("H14".to_owned(), TemperBeside::Harder, 1.0, false));
    // Thicker than every row: the thickest of the same temper.
    assert_eq!(nearest("5052", "H32", ".625"), ("H32".to_owned(), TemperBeside::Same, 2.0, true));
    let unnamed = nearest_inside_radius("6061", None, read(".125")).unwrap();
    assert_eq!((unnamed.temper.as_deref(), unnamed.beside), (Some("O"), TemperBeside::Unnamed));
    assert_eq!(nearest_inside_radius("stainless 304", None, read("2 mm")), None, "no row at all");
    assert_eq!(nearest_inside_radius("5052", Some("H32"), read(".125")), None, "has a row of its own");
}

// Whatever temper the tables offer, and however thick, there is a row of its own or one to go by: none is passed over.
#[test]
fn no_temper_of_an_alloy_with_rows_is_left_without_either() {
    for alloy in alloys().iter().filter(|alloy| alloy.family == stock::Family::Aluminium) {
        let tempers = alloy.tempers.iter().map(|temper| Some(temper.as_str())).chain([None]);
        for temper in tempers {
            for thickness in [0.02, 0.125, 0.25, 0.375, 0.75] {
                let own = least_inside_radius(&alloy.name, temper, inches(thickness)).is_some();
                let near = nearest_inside_radius(&alloy.name, temper, inches(thickness)).is_some();
                assert!(own != near, "{} {temper:?} {thickness}", alloy.name);
            }
        }
    }
}

#[test]
fn a_job_may_replace_every_figure_and_it_is_recorded() {
    let plain = builder("5052-H32", 0.125).unwrap().build().unwrap();
    assert!(plain.overrides.is_empty());
    assert_eq!(plain.alloy_and_temper(), "5052-H32");
    assert_eq!(plain.inside_radius, inches(0.1875));
    assert!(plain.source(Figure::InsideRadius).unwrap().contains("Aluminum Design Manual"));
    assert_eq!(plain.bend_model, BendModel::KFactor(0.42));
    assert_eq!(plain.source(Figure::BendModel), Some("common practice, no source"));
    let density = Density::read(".0968 lb/in3").unwrap();
    let weight = MassPerArea::read("1.95 lb/ft2").unwrap();
    let metal = builder("5052-H32", 0.125)
        .unwrap()
        .density(density)
        .weight_per_area(weight)
        .inside_radius(inches(0.125))
        .least_inside_radius(inches(0.125))
        .bend_model(BendModel::FaaHandbook)
        .build()
        .unwrap();
    let replaced: Vec<Figure> = metal.overrides.iter().map(|change| change.figure).collect();
    assert_eq!(
        replaced,
        [Figure::Density, Figure::WeightPerArea, Figure::LeastInsideRadius, Figure::BendModel]
    );
    assert_eq!(metal.overrides[2].table, FigureValue::Length(inches(0.1875)));
    assert_eq!(metal.overrides[2].job, FigureValue::Length(inches(0.125)));
    assert_eq!((metal.density, metal.weight_per_area), (density, weight));
    assert!(metal.sources.iter().all(|(_, source)| source == "given by the job"));
}

#[test]
fn what_agrees_with_the_table_is_no_override() {
    let density = find_alloy("5052").unwrap().alloy.density;
    assert!(builder("5052", 0.125).unwrap().density(density).build().unwrap().overrides.is_empty());
}

#[test]
fn tread_and_film_give_a_sheet_its_face() {
    let tread = builder("3003-H22", 0.125).unwrap().pattern(Pattern::Tread).build().unwrap();
    assert!(tread.has_face_side() && !tread.pattern_included);
    let weighed = MassPerArea::read("1.95 lb/ft2").unwrap();
    let tread =
        builder("3003", 0.125).unwrap().pattern(Pattern::Tread).weight_per_area(weighed).build().unwrap();
    assert!(tread.pattern_included);
    assert!(builder("5052", 0.125).unwrap().film(Film::OneSide).build().unwrap().has_face_side());
    assert!(!builder("5052", 0.125).unwrap().film(Film::BothSides).build().unwrap().has_face_side());
}

#[test]
fn metals_that_cannot_be_are_refused() {
    assert!(matches!(builder("5052", 0.0).unwrap().build(), Err(MetalError::Thickness { .. })));
    assert!(matches!(builder("5052", -0.125).unwrap().build(), Err(MetalError::Thickness { .. })));
    let radius = builder("5052", 0.125).unwrap().inside_radius(inches(-0.1));
    assert_eq!(radius.build(), Err(MetalError::NegativeRadius));
    for k in [-0.1, 1.5, f64::NAN] {
        let model = BendModel::KFactor(k);
        assert_eq!(builder("5052", 0.125).unwrap().bend_model(model).build(), Err(MetalError::KFactor));
    }
    let bronze = Alloy::unlisted("bronze", Density::read("8.8 g/cm3").unwrap());
    let built = MetalBuilder::unlisted("bearing", bronze, inches(0.125)).build();
    assert_eq!(built, Err(MetalError::NoBendModel { alloy: "bronze".into() }));
}

proptest! {
    #[test]
    fn thicker_sheet_never_asks_for_a_smaller_radius(a in 1_i64..12_700, b in 1_i64..12_700) {
        let (thin, thick) = (Length::from_nanometres(a.min(b) * 1000), Length::from_nanometres(a.max(b) * 1000));
        for alloy in alloys() {
            for temper in &alloy.tempers {
                let radius = |thickness| least_inside_radius(&alloy.name, Some(temper), thickness);
                if let (Some(less), Some(more)) = (radius(thin), radius(thick)) {
                    prop_assert!(less.radius <= more.radius, "{} {temper}", alloy.name);
                }
            }
        }
    }

    #[test]
    fn any_name_is_found_or_refused_without_a_panic(text in any::<String>(), near in "[0-9a-z -]{0,12}") {
        let _ = (find_alloy(&text), find_alloy(&near));
    }
}
