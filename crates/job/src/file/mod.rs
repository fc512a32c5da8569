//! The job file as it is written. The schema comes from these structs, their comments are its descriptions, and the
//! reader goes by that schema: a field that is not here is refused.
//!
//! Units and sums are not known here: lengths stay as they are written. A unit that is at fault in its structure (one
//! part, one metal …) stands as `None` in its list, so that everything else can still be read and judged.

mod assembly;
mod bar;
mod brake;
mod clearance;
mod corner;
mod covering;
mod edge;
mod features;
mod fit;
mod hand;
mod kit;
mod metal;
mod money;
mod one_sheet;
mod opening;
mod option;
mod order;
mod part;
mod quantity;
mod rack;
mod received;
mod shop;
mod strip_line;
mod weights;

pub(crate) use assembly::{AssemblyFile, AxisFile, PlacedFile};
pub(crate) use bar::{BarFile, BarPieceFile, StickFile};
pub(crate) use brake::{BrakeFile, BrakeKindFile, ProfileFile, PunchFile, RollFile};
pub(crate) use clearance::{ClearanceFile, MultipleFile};
pub(crate) use corner::{ByNameFile, ChosenFile, CornerFile, TabsFile};
pub(crate) use covering::{CoveringFile, CoveringPieceFile, ExpansionFile, LinerFile};
pub(crate) use edge::{CurlFile, EdgeFile, EdgeWayFile, HemFile, HemKindFile, ReturnFile};
pub(crate) use features::{FlangeFile, HoleFile, NotchFile, UpDown};
pub(crate) use fit::{
    DoorFile, DoorWayFile, FitFile, LeafFile, LidSwingFile, LiesFile, LiftOutFile, ObstacleFile,
    PlanTurnFile, TiltOutFile, TogetherFile, WayFile,
};
pub(crate) use hand::HandFile;
pub(crate) use kit::{CratesFile, KitFile, PackingFile};
pub(crate) use metal::{
    FilmFile, MetalFile, MetalLay, ModelFile, PatternFile, SheetFile, TurnFields, TurnsFile,
};
pub(crate) use money::{
    BuyingFile, ConsumableFile, CutToSizeFile, GoodsTermsFile, HardwareFile, JointFile, LumpFile,
    MassUnitFile, MaterialFile, PerFile, PriceOfMassFile, QuoteFile, WeldFile, WorkRateFile,
};
pub(crate) use one_sheet::OneSheetFile;
pub(crate) use opening::{
    CornersRun, FourSidesFile, OpeningFile, OpeningOrSize, OutlineFile, SidesFile, TrustFile,
};
pub(crate) use option::OptionFile;
pub(crate) use order::{FilmSideFile, InterleafFile, OrderFile, PackedFile};
pub(crate) use part::{
    BackCutFile, CutCornerFile, CutStyleFile, DividersFile, PanMadeFile, RimStepFile, TrayFile,
};
pub(crate) use part::{
    BendWayFile, BrakeProfileFile, BulkheadFile, ChannelEndFile, ConeFile, ConsoleFile, CoverNotchFile,
    CoversFile, CylinderFile, DayBoxFile, DeckFile, DiameterToFile, DrawnFaceFile, EachSide, EndFile,
    FaceFile, FootRecessFile, HandSlotsFile, LegFile, LegToFile, LidFile, LimberHoleFile, LockerFile,
    LockerLidFile, MadeOfFile, MirrorFile, MitreInFile, PadFile, PanFile, PanelFile, PartCommon, PartFile,
    PartLayFile, PlateFile, ProfileBendFile, RimFile, SlopeFile, SplitPlateFile, StepFile, StepPipeFile,
    StraightWallFile, TaperedLidFile, TransitionFile, WalkFile, WallFile, WrapSeamFile, WrapWayFile,
};
pub(crate) use part::{CoamingFile, CoamingMadeFile, CrownFile, GutterFile, GutterSpoutFile, SkirtEdgeFile};
pub(crate) use part::{
    HingeFile, HopperFile, HopperMadeFile, HopperStandsFile, LidMadeFile, LiftingNotchFile, SplitFile,
};
pub(crate) use quantity::{Degrees, MinutesFile, Named, Percentage, Price, Size};
pub(crate) use rack::{FaceStateFile, OffcutFile, OffcutLayFile, RackFile, SoundRackFile, TornFile};
pub(crate) use received::{ReceivedFile, ReceivedSheetFile};
pub(crate) use shop::{CuttingFile, NestingFile, ReliefFile, ReliefRuleFile, ShearFile, ShopFile, StripFile};
pub(crate) use strip_line::StripLine;
pub(crate) use weights::{
    GripFile, HingedLidFile, HungFile, LiftFile, MakerFile, StationLoadFile, StationsFile, StrutsFile,
    WeightsFile,
};

use schemars::JsonSchema;
use serde::Deserialize;

/// The version of the job file that is read here.
pub(crate) const VERSION: u64 = 1;

/// One job: its metals and sheets, the openings taped, and the parts to make.
#[derive(Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
#[schemars(title = "plateloft job file")]
pub(crate) struct JobFile {
    /// Version of the job file: 1.
    #[expect(dead_code, reason = "the version is looked at before anything else is read")]
    pub(crate) plateloft: Version,
    /// What the job is called.
    #[schemars(required, length(min = 1, max = 80))]
    pub(crate) job: Option<String>,
    /// Unit of bare numbers, and of everything printed.
    pub(crate) units: UnitsFile,
    /// The tape's smallest division: "1/16" or ".01" with inches, "1" or "0.5" with millimetres.
    pub(crate) tape: Size,
    /// Revision, as the shop writes it.
    #[schemars(length(max = 20))]
    pub(crate) revision: Option<String>,
    /// Date, as the shop writes it.
    #[schemars(length(max = 40))]
    pub(crate) date: Option<String>,
    /// Currency of every price, as the shop writes it: "USD", "€". What is printed of money names it.
    #[schemars(length(min = 1, max = 12))]
    pub(crate) currency: Option<String>,
    /// The shop's habits.
    #[schemars(required)]
    pub(crate) shop: Option<ShopFile>,
    /// Metals by the name that parts and sheets call them. A job without parts needs none.
    #[serde(default)]
    pub(crate) metals: Named<Option<MetalFile>>,
    /// Sheets to buy or on the rack. A metal without any takes the stock sizes of the job's units, without a price.
    #[serde(default)]
    pub(crate) sheets: Vec<Option<SheetFile>>,
    /// Openings as taped, by the name that parts call them.
    #[serde(default)]
    pub(crate) openings: Named<Option<OpeningFile>>,
    /// Parts to make. Bars, coverings or liners may be a job of their own.
    #[serde(default)]
    pub(crate) parts: Vec<Option<PartFile>>,
    /// Questions about the places the finished parts go to.
    #[serde(default)]
    pub(crate) fits: Vec<Option<FitFile>>,
    /// Parts that are cut from the same sheet, so that they match.
    #[serde(default)]
    pub(crate) one_sheet: Vec<Option<OneSheetFile>>,
    /// Bars, pipe and section cut to length from sticks.
    #[serde(default)]
    pub(crate) bars: Vec<Option<BarFile>>,
    /// Matting, carpet and liner cut from rolls.
    #[serde(default)]
    pub(crate) coverings: Vec<Option<CoveringFile>>,
    /// Wear liner of plastic sheet, in panels with gaps to grow.
    #[serde(default)]
    pub(crate) liners: Vec<Option<LinerFile>>,
    /// Hardware to list with the take-off.
    #[serde(default)]
    pub(crate) hardware: Vec<Option<HardwareFile>>,
    /// The supplier's terms, and what scrap and drops are worth.
    pub(crate) buying: Option<BuyingFile>,
    /// The shop's own rates for a quote.
    pub(crate) quote: Option<QuoteFile>,
    /// What is asked about weights: lids about their hinges, gas struts, loads on stations, lifts by hand.
    pub(crate) weights: Option<WeightsFile>,
    /// The flats as a kit for a buyer who folds them.
    pub(crate) kit: Option<KitFile>,
    /// Other ways of making the job, which `quote` prices beside it.
    #[serde(default)]
    #[expect(dead_code, reason = "options are taken from the tree before the structs are read")]
    pub(crate) options: Vec<Option<OptionFile>>,
}

/// The one version.
#[derive(Debug, Clone, Copy, Deserialize)]
#[serde(transparent)]
pub(crate) struct Version {
    #[expect(dead_code, reason = "only its place in the schema matters")]
    number: u64,
}

impl JsonSchema for Version {
    fn schema_name() -> std::borrow::Cow<'static, str> {
        "Version".into()
    }

    fn json_schema(_: &mut schemars::SchemaGenerator) -> schemars::Schema {
        schemars::json_schema!({ "type": "integer", "minimum": VERSION, "maximum": VERSION })
    }
}

/// Units of a job.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub(crate) enum UnitsFile {
    /// Inches.
    Inch,
    /// Millimetres.
    Mm,
}
