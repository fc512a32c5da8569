//! The job as the rest of the program knows it.

use checks::fit::door::Doorway;
use checks::fit::level::LevelLift;
use checks::fit::swing::LidSwing;
use checks::fit::tilted::TiltedLift;
use checks::fit::together::Together;
use fold::BendNumber;
use shapes::brake_profile::BrakeProfile;
use shapes::bulkhead::Bulkhead;
use shapes::coaming::Coaming;
use shapes::cone::Cone;
use shapes::console::Console;
use shapes::covers::Covers;
use shapes::cylinder::Cylinder;
use shapes::day_box::{DayBox, SetBox};
use shapes::deck::Deck;
use shapes::gutter::Gutter;
use shapes::hopper::Hopper;
use shapes::lid::{CrownedLid, Lid};
use shapes::locker::Locker;
use shapes::opening::Opening;
use shapes::pan::{MadeUpPan, Pan};
use shapes::panel::Panel;
use shapes::plate::Plate;
use shapes::split_plate::SplitPlate;
use shapes::step::Step;
use shapes::tapered_lid::{EdgedLid, MadeUpLid, TaperedLid};
use shapes::transition::Transition;
use shapes::tray::Tray;
use shapes::walk::Walk;
use shapes::{
    CornerStyle, DrawnFace, FaceSide, Making, Piece, Places, Problem, Recipe, ReliefHole, ReliefStyle, Shaped,
};
use units::{Length, LengthStyle, LengthUnit, Money};

use crate::convert::{Buying, FaceState, Hardware, JobCovering, JobLiner, Kit, QuoteRates, Weights};
use crate::message::Message;
use crate::sheet_outline::SheetOutline;
use crate::written::Written;

/// A job: every size read, every name found, nothing shaped yet.
#[derive(Debug, Clone, PartialEq)]
pub struct Job {
    /// What the job is called.
    pub name: String,
    /// Revision, as the shop writes it.
    pub revision: Option<String>,
    /// Date, as the shop writes it.
    pub date: Option<String>,
    /// Currency of every price, as the shop writes it.
    pub currency: Option<String>,
    /// Notes to the job as a whole.
    pub notes: Vec<String>,
    /// How lengths print.
    pub style: LengthStyle,
    /// The unit of bare numbers in the file.
    pub unit: LengthUnit,
    /// The tape's smallest division.
    pub tape: Length,
    /// The shop's habits.
    pub shop: Shop,
    /// Metals in the file's order.
    pub metals: Vec<JobMetal>,
    /// Sheets that can be bought or are on the rack. Every metal that a part uses has at least one row.
    pub sheets: Vec<JobSheet>,
    /// Openings, solved, in the file's order.
    pub openings: Vec<JobOpening>,
    /// Parts in the file's order; an opposite hand follows the part it mirrors.
    pub parts: Vec<Part>,
    /// Questions about the places the finished parts go to.
    pub fits: Vec<JobFit>,
    /// Parts that come from one sheet.
    pub one_sheet: Vec<OneSheet>,
    /// Bars, pipe and section.
    pub bars: Vec<JobBar>,
    /// Roll goods.
    pub coverings: Vec<JobCovering>,
    /// Wear liner of plastic sheet.
    pub liners: Vec<JobLiner>,
    /// Hardware to list with the take-off and the quote.
    pub hardware: Vec<Hardware>,
    /// The supplier's terms.
    pub buying: Buying,
    /// The shop's own rates for a quote.
    pub quote: QuoteRates,
    /// What is asked about weights.
    pub weights: Weights,
    /// The flats as a kit, when it is asked for.
    pub kit: Option<Kit>,
    /// Names of the other ways of making it that the file holds; none of them is in this job.
    pub options: Vec<String>,
    /// What the file left open and how it was taken, one sentence each.
    pub assumptions: Vec<String>,
    /// What can be made but should be looked at, one sentence each.
    pub cautions: Vec<String>,
}

/// Parts of one metal that are all cut from the same sheet.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct OneSheet {
    /// Their numbers in [`Job::parts`].
    pub parts: Vec<usize>,
    /// True to turn them alike.
    pub same_turn: bool,
}

/// The shop's habits.
#[derive(Debug, Clone, PartialEq)]
pub struct Shop {
    /// Least distance between parts on a sheet.
    pub gap: Length,
    /// Strip at each edge of a sheet that is not used.
    pub edge_trim: Length,
    /// Width the cut takes; never more than the gap.
    pub kerf: Length,
    /// How sheets are cut.
    pub cutting: Cutting,
    /// From the middle of a cut to the guide, when the shop says.
    pub guide_offset: Option<Length>,
    /// One cut may serve two parts whose straight edges match.
    pub shared_cuts: bool,
    /// Corner relief.
    pub relief: ReliefStyle,
    /// What sizes the hole of a drilled relief, that of the shop or of a part.
    pub relief_hole: ReliefHole,
    /// How corners are made, unless a part says otherwise.
    pub corner: CornerStyle,
    /// Gap between the two plates at a corner.
    pub seam_gap: Length,
    /// Where the parts are bent, when the file says.
    pub brake: Option<Brake>,
    /// The slip roll, when the file gives one.
    pub roll: Option<stock::brake::SlipRoll>,
    /// Bends tighter than the metal's table are refused, not only pointed out.
    pub stop_below_least_radius: bool,
    /// Least sizes of a drop worth keeping, smaller first; none are kept when not given.
    pub keep_drop: Option<[Length; 2]>,
    /// How long nests are looked for.
    pub nesting: Nesting,
}

/// How long nests are looked for, where the file says.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Nesting {
    /// Evaluations for every choice of sheets.
    pub evaluations: Option<u64>,
    /// Seed of all chance.
    pub seed: Option<u64>,
}

/// One kind of bar, pipe or section.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct JobBar {
    /// What is ordered; rolled pipe of this name is cut from it too.
    pub name: String,
    /// Lengths it comes in.
    pub sticks: Vec<JobStick>,
    /// Lengths to cut, pipe of steps not counted.
    pub pieces: Vec<BarPiece>,
    /// Width of one saw cut.
    pub kerf: Length,
    /// Cut off each end of a stick.
    pub end_trim: Length,
    /// Shortest rest worth keeping, when any is.
    pub keep_rest: Option<Length>,
}

/// A length of stick.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct JobStick {
    /// Its length.
    pub length: Length,
    /// Price of one, when given.
    pub price: Option<Money>,
    /// How many there are, when limited.
    pub count: Option<u32>,
    /// True for pieces of the rack: used before anything is bought.
    pub on_rack: bool,
}

/// A length to cut from a bar.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct BarPiece {
    /// Its mark.
    pub mark: String,
    /// Finished length.
    pub length: Length,
    /// How many.
    pub quantity: u32,
}

/// How sheets are cut.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Cutting {
    /// Along every outline, by saw, torch or router.
    ByHand,
    /// Into rectangular blanks, right through.
    Shear {
        /// The longest cut.
        longest_cut: Option<Length>,
        /// The most rounds of cuts.
        rounds: Option<u32>,
    },
}

/// The brake, and what the shop says of it as a whole.
#[derive(Debug, Clone, PartialEq)]
pub struct Brake {
    /// The machine with its tooling.
    pub machine: stock::brake::Machine,
    /// Opening of the one V die, when a single one is given.
    pub v_opening: Option<Length>,
    /// Shortest outside leg it can bend.
    pub shortest_flange: Option<Length>,
}

impl Brake {
    /// Openings of all V dies that are given.
    #[must_use]
    pub fn v_openings(&self) -> Vec<Length> {
        match &self.machine {
            stock::brake::Machine::Press(press) if !press.v_openings.is_empty() => press.v_openings.clone(),
            _ => self.v_opening.into_iter().collect(),
        }
    }
}

/// A metal of the job and its bend number.
#[derive(Debug, Clone, PartialEq)]
pub struct JobMetal {
    /// The metal, under the job's name for it.
    pub metal: stock::Metal,
    /// Its bend number: the shop's strip, else the job's own figure, else the table's.
    pub number: BendNumber,
    /// How parts of it may be turned on the sheet.
    pub turns: Turns,
    /// Height of its lugs over the flat base, when the file gives it; nothing for plain metal.
    pub lug_height: Option<Length>,
    /// Whether its face shows when the parts are finished.
    pub face_shows: bool,
    /// That it is bent sharper than its table says, for a job that bends it.
    pub radius_caution: Option<String>,
}

/// How a part may be turned on the sheet.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Turns {
    /// As laid, or by half a turn.
    Half,
    /// By quarter turns.
    Quarter,
    /// Freely.
    Any,
    /// These turns only, in thousandths of a degree counter-clockwise, 0 to below 360,000.
    Listed(Vec<u32>),
}

/// A sheet size of one metal.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct JobSheet {
    /// Which metal, by its place in [`Job::metals`].
    pub metal: usize,
    /// The smaller side.
    pub width: Length,
    /// The larger side.
    pub length: Length,
    /// Price of one sheet, when the file gives it.
    pub price: Option<Money>,
    /// Cuts that the supplier makes to bring one to this size.
    pub supplier_cuts: u32,
    /// How many there are, when limited.
    pub count: Option<u32>,
    /// What the file notes of it.
    pub notes: Vec<String>,
    /// True when the job gives no sheets for the metal and this one comes from the table of stock sizes.
    pub from_table: bool,
    /// The mark of the offcut, for a piece of the shop's rack.
    pub from_rack: Option<String>,
    /// What is known of the face of a piece of the rack.
    pub face: Option<FaceState>,
    /// The marks of the sheets as received, where this is what they measure.
    pub received: Option<String>,
    /// Its own thickness by caliper, where it was received; that of the metal is the thickest sheet's.
    pub thickness: Option<Length>,
    /// The outline of an offcut that is no rectangle; width and length are then those of the rectangle around it.
    pub outline: Option<SheetOutline>,
}

impl JobSheet {
    /// What an area of it weighs: by its own thickness where that was measured, else by that of its metal.
    #[must_use]
    pub fn weight_per_area(&self, metal: &stock::Metal) -> units::MassPerArea {
        let own = self.thickness.and_then(|thickness| metal.measured(thickness).ok());
        own.map_or(metal.weight_per_area, |own| own.weight_per_area)
    }
}

/// An opening, solved from what was taped.
#[derive(Debug, Clone, PartialEq)]
pub struct JobOpening {
    /// Its name.
    pub name: String,
    /// As solved, with the check of a diagonal more than it needs.
    pub solved: Opening,
}

/// A part to make.
#[derive(Debug, Clone, PartialEq)]
pub struct Part {
    /// The shop's mark.
    pub mark: String,
    /// How many.
    pub quantity: u32,
    /// Which metal, by its place in [`Job::metals`].
    pub metal: usize,
    /// Its shape.
    pub shape: ShapeInput,
    /// The metal's bend number and the shop's habits, for shaping.
    pub making: Making,
    /// How it lies to lugs or grain; `None` when the metal has no lay.
    pub lay: Option<PartLay>,
    /// True when it may be cut from the other face of the sheet, which is just as good there: its metal has equal faces.
    pub may_mirror: bool,
    /// How it may be turned on the sheet, where it says so itself; as its metal says else.
    pub turns: Option<Turns>,
    /// The marked face, when the file asks for another than the shape's natural one.
    pub face: Option<FaceSide>,
    /// The name of the drawn face as the part stands in use, when the file gives one; its shape's own else.
    pub drawn_face: Option<DrawnFace>,
    /// The mark of the part that this one mirrors.
    pub opposite_hand_of: Option<String>,
    /// Which piece it is, of a shape that is made of several.
    pub piece_of: Option<PieceOf>,
    /// What of an opposite hand differs from the part it mirrors; nothing in an exact pair.
    pub hand_edits: Vec<HandEdit>,
    /// Notes to print with the part.
    pub notes: Vec<String>,
    /// Its fields as they stand in the file, for messages.
    pub(crate) written: Written,
}

/// One piece of a shape that is made of several.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct PieceOf {
    /// The mark of the whole.
    pub whole: String,
    /// Its place among the recipe's pieces.
    pub number: usize,
    /// What the recipe says of it.
    pub piece: Piece,
}

/// A size in which an opposite hand differs from the part it mirrors, in that part's own terms.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct HandEdit {
    /// Path of the field inside the part.
    pub field: String,
    /// The station or waterline that it is the size at, as written, where it is one of such a row.
    pub station: Option<String>,
    /// As written for the part that is mirrored.
    pub original: String,
    /// As written for the opposite hand.
    pub edited: String,
}

/// A question about the place one or two finished parts go to.
#[derive(Debug, Clone, PartialEq)]
pub struct JobFit {
    /// The parts, by their places in [`Job::parts`].
    pub parts: Vec<usize>,
    /// The question.
    pub question: FitQuestion,
    /// Its notes.
    pub notes: Vec<String>,
}

/// The kinds of questions.
#[derive(Debug, Clone, PartialEq)]
pub enum FitQuestion {
    /// Straight out through an opening.
    LiftOut(LevelLift),
    /// Out one end first.
    TiltOut(TiltedLift),
    /// Past a door that stops short.
    Door(Doorway),
    /// A hinged lid.
    LidSwing {
        /// The hinged side.
        hinge: String,
        /// The pin and what is around.
        swing: LidSwing,
    },
    /// Two parts in one space.
    Together(Together),
}

/// How a part lies to the lugs or grain of its sheet.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum PartLay {
    /// The flat's x axis runs along them.
    Along,
    /// The flat's x axis runs across them.
    Across,
}

/// A shape with its sizes.
#[derive(Debug, Clone, PartialEq)]
pub enum ShapeInput {
    /// A lid that tapers up on all sides.
    TaperedLid(TaperedLid),
    /// The same with a hem, return or curl at its edge.
    EdgedLid(EdgedLid),
    /// The same with a making, seat, hinge or notch of its own.
    MadeUpLid(MadeUpLid),
    /// A flat flanged lid.
    Lid(Lid),
    /// A flanged lid with a crown.
    CrownedLid(CrownedLid),
    /// A pan.
    Pan(Pan),
    /// A box let into a face.
    DayBox(DayBox),
    /// A pan with a making, step, drain or slot of its own.
    MadeUpPan(MadeUpPan),
    /// A pan with dividers.
    Tray(Tray),
    /// A box let into a leaning face, or with its back cut.
    SetBox(SetBox),
    /// A gutter round an opening.
    Gutter(Gutter),
    /// A coaming round an opening.
    Coaming(Coaming),
    /// A hopper or canopy.
    Hopper(Hopper),
    /// A panel with flanges.
    Panel(Panel),
    /// A flat plate.
    Plate(Plate),
    /// A brake-formed profile.
    BrakeProfile(BrakeProfile),
    /// A side deck.
    Deck(Deck),
    /// Covers over a channel.
    Covers(Covers),
    /// Lift-out panels of a walk.
    Walk(Walk),
    /// A flat plate in pieces.
    SplitPlate(SplitPlate),
    /// A cylinder wrapped of plate.
    Cylinder(Cylinder),
    /// A cone frustum wrapped of plate.
    Cone(Cone),
    /// A duct transition of triangles.
    Transition(Transition),
    /// A step or platform top.
    Step(Step),
    /// A bulkhead.
    Bulkhead(Bulkhead),
    /// A side locker.
    Locker(Locker),
    /// A console.
    Console(Console),
}

impl ShapeInput {
    /// Its recipe.
    #[must_use]
    pub fn recipe(&self) -> &dyn Recipe {
        match self {
            Self::TaperedLid(shape) => shape,
            Self::EdgedLid(shape) => shape,
            Self::MadeUpLid(shape) => shape,
            Self::Lid(shape) => shape,
            Self::CrownedLid(shape) => shape,
            Self::Pan(shape) => shape,
            Self::DayBox(shape) => shape,
            Self::MadeUpPan(shape) => shape,
            Self::Tray(shape) => shape,
            Self::SetBox(shape) => shape,
            Self::Gutter(shape) => shape,
            Self::Coaming(shape) => shape,
            Self::Hopper(shape) => shape,
            Self::Panel(shape) => shape,
            Self::Plate(shape) => shape,
            Self::BrakeProfile(shape) => shape,
            Self::Deck(shape) => shape,
            Self::Covers(shape) => shape,
            Self::Walk(shape) => shape,
            Self::SplitPlate(shape) => shape,
            Self::Cylinder(shape) => shape,
            Self::Cone(shape) => shape,
            Self::Transition(shape) => shape,
            Self::Step(shape) => shape,
            Self::Bulkhead(shape) => shape,
            Self::Locker(shape) => shape,
            Self::Console(shape) => shape,
        }
    }
}

impl Part {
    /// The mark under which it stands in the job file: that of the whole, for a piece of it.
    #[must_use]
    pub fn written_mark(&self) -> &str {
        self.piece_of.as_ref().map_or(&self.mark, |piece| &piece.whole)
    }

    /// A problem with the part as a message about the file that gave it, its field as it stands there.
    #[must_use]
    pub fn message(&self, file: &str, problem: &Problem) -> Message {
        let field = self.written.field(&problem.field);
        Message::of_problem(file, self.written_mark(), &Problem { field, ..problem.clone() })
    }

    /// Shapes the part: its recipe, then the opposite hand if it is one, then the face that is asked for.
    ///
    /// # Errors
    /// Every [`Problem`] that its recipe finds.
    pub fn shape(&self) -> Result<Shaped, Vec<Problem>> {
        let recipe = self.shape.recipe();
        let piece = self.piece_of.as_ref().map_or(0, |piece| piece.number);
        let mut shaped = recipe.shape_piece(piece, &self.making)?;
        if self.opposite_hand_of.is_some() {
            shaped.part = shaped.part.mirrored();
            crate::other_hand::rename(&mut shaped);
        }
        if self.is_seen_from_back() {
            shaped.part = shaped.part.seen_from_back();
        }
        Ok(shaped)
    }

    /// A fact of the recipe as it is said of this part: an opposite hand has its sides and its turns exchanged.
    #[must_use]
    pub fn of_hand(&self, mut fact: shapes::Fact) -> shapes::Fact {
        if self.opposite_hand_of.is_some() {
            crate::other_hand::exchange(&mut fact);
        }
        fact
    }

    /// What a drawing names on the part's root face beside what its faces are called, in the root's coordinates.
    #[must_use]
    pub fn places(&self) -> Places {
        let piece = self.piece_of.as_ref().map_or(0, |piece| piece.number);
        let natural = self.shape.recipe().places(piece, &self.making);
        let hand =
            if self.opposite_hand_of.is_some() { crate::other_hand::places(&natural) } else { natural };
        if self.is_seen_from_back() { hand.mirrored() } else { hand }
    }

    /// True when the marked face is not the one that its recipe has by nature.
    #[must_use]
    pub fn is_seen_from_back(&self) -> bool {
        self.face.is_some() && self.face != self.shape.recipe().natural_face()
    }
}
