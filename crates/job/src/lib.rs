//! The job file: reading with places, and conversion to the model.
//!
//! [`read`] takes the bytes of a job file and gives a [`Job`], or every [`Message`] there is to say about it. The file's
//! own structs, its schema and its words stay inside this crate; nothing below it knows them. What the sizes of one
//! shape do to one another is found by [`Part::shape`], and [`Part::message`] words it like the rest.
//! This crate knows no sheets' nesting and no paper. Modules in reading order.

mod message;
mod model;
mod sheet_outline;

mod contents;
mod field_words;
mod file;
mod nearest;
mod other_hand;
mod percentage;
mod place;
mod schema;
mod starter;
mod written;

mod reading;

mod convert;

pub use convert::{Buying, Consumable, ConsumedBy, Hardware, MaterialCharge, QuoteRates, Rate, WeldBetween};
pub use convert::{CoveringPiece, Expansion, JobCovering, JobLiner, LinedArea};
pub use convert::{
    FaceState, Mismatch, NewOffcut, NewTornZone, Offcut, OffcutLay, OffcutMetal, Rack, Standing, TornZone,
    Wanted, exact_length, is_thickness, new_offcut, rack_text, read_rack, suits,
};
pub use convert::{HingedLid, Lift, Load, Loaded, Stations, Struts, Weights};
pub use convert::{Interleaf, Kit, OrderTerms};
pub use convert::{JobAssembly, Placed};
pub use convert::{LoggedStrip, NewStrip, new_strip_line, read_strip_log};
pub use convert::{NewReceived, Received, ReceivedSheet, new_received, read_received, received_text};
pub use field_words::field_words;
pub use message::Message;
pub use model::{
    BarPiece, Brake, Cutting, FitQuestion, HandEdit, Job, JobBar, JobFit, JobMetal, JobOpening, JobSheet,
    JobStick, Nesting, OneSheet, Part, PartLay, PieceOf, ShapeInput, Shop, Turns,
};
pub use reading::{FindLog, FoundLog, JobOption, options, read, read_as_received, read_with_log};
pub use schema::{schema, strip_line_schema};
pub use sheet_outline::{SheetOutline, enclosed};
pub use starter::starter;
