//! `plateloft rack add`: one more piece in the rack.

use clap::{Args, ValueEnum};
use job::{FaceState, Message, NewOffcut, NewTornZone, Offcut, OffcutLay, Standing, new_offcut};
use stock::Film;
use units::Length;

use super::super::Unit;
use super::{RackPath, rack_file, take, words};
use crate::speech::{Refusal, say};

/// Puts a piece in the rack. Nothing is written unless all of it is right, and the piece is worth keeping.
#[derive(Debug, Args)]
pub(super) struct Add {
    #[command(flatten)]
    rack: RackPath,
    /// The shop's mark, to chalk on the piece
    #[arg(long)]
    mark: String,
    /// Alloy and temper as ordered, like 5052-H32
    #[arg(long)]
    metal: String,
    /// Tread plate
    #[arg(long)]
    tread: bool,
    /// The alloy is not in the tables
    #[arg(long)]
    unlisted: bool,
    /// Thickness by caliper (of the flat base, for tread plate)
    #[arg(long, allow_hyphen_values = true)]
    thickness: String,
    /// The thickness is as ordered: nobody has measured it
    #[arg(long)]
    not_measured: bool,
    /// A rectangle: size along x, then along y
    #[arg(long, num_args = 2, value_names = ["X", "Y"], allow_hyphen_values = true, required_unless_present = "corner")]
    size: Option<Vec<String>>,
    /// One corner of any other outline, x then y; give it once for each, in order, seen from the marked face
    #[arg(long, num_args = 2, value_names = ["X", "Y"], allow_hyphen_values = true, conflicts_with = "size")]
    corner: Vec<String>,
    /// One corner of a hole: which hole, then x and y; give it once for each corner, in order
    #[arg(long, num_args = 3, value_names = ["HOLE", "X", "Y"], allow_hyphen_values = true)]
    hole: Vec<String>,
    /// One corner of a zone that is torn or not to be used for another reason: which zone, then x and y
    #[arg(long, num_args = 3, value_names = ["ZONE", "X", "Y"], allow_hyphen_values = true)]
    torn: Vec<String>,
    /// Why that zone may not be used: which zone, then a word or two
    #[arg(long, num_args = 2, value_names = ["ZONE", "WHY"])]
    torn_why: Vec<String>,
    /// State of the face that will show
    #[arg(long, value_enum, default_value = "unknown")]
    face: Face,
    /// Protective film
    #[arg(long, value_enum, default_value = "none")]
    film: FilmOn,
    /// Which way lugs or grain run
    #[arg(long, value_enum, default_value = "unknown")]
    lay: LayOf,
    /// Where it stands
    #[arg(long)]
    place: String,
    /// The job it is left from
    #[arg(long)]
    from_job: Option<String>,
    /// The piece of this rack that it was cut from
    #[arg(long, value_name = "MARK")]
    cut_from: Option<String>,
    /// Day it came, like 2026-03-04
    #[arg(long)]
    date: String,
    /// Anything else worth knowing
    #[arg(long)]
    note: Option<String>,
    /// Keep it even if it is smaller than the rack's least size
    #[arg(long)]
    although_small: bool,
    /// Unit of lengths given without one
    #[arg(long, value_enum, default_value = "inch")]
    units: Unit,
}

#[derive(Debug, Clone, Copy, ValueEnum)]
enum Face {
    /// Fit to show
    Good,
    /// Scratched or stained
    Scratched,
    /// Nobody has looked
    Unknown,
}

#[derive(Debug, Clone, Copy, ValueEnum)]
enum FilmOn {
    /// No film
    None,
    /// On the marked face
    OneSide,
    /// On both faces
    BothSides,
}

#[derive(Debug, Clone, Copy, ValueEnum)]
enum LayOf {
    /// Along x
    AlongX,
    /// Along y
    AlongY,
    /// There is none
    None,
    /// Nobody can tell
    Unknown,
}

impl Add {
    /// Runs the command.
    pub(super) fn run(&self) -> Result<(), Refusal> {
        let style = self.units.style();
        let offcut = self.judged()?;
        rack_file::change(&self.rack.rack, true, |rack| {
            self.taken_before(rack)?;
            put(rack, offcut.clone(), self.although_small, "rack add", style)
        })?;
        say(&format!("{}: {}", self.rack.rack.display(), words::line(&offcut, style)));
        Ok(())
    }

    /// The piece; or everything that is wrong with it, its size by what was given and not by the outline that it makes.
    fn judged(&self) -> Result<Offcut, Refusal> {
        let wrong_size = self.wrong_size();
        let judged = new_offcut("rack add", &self.offcut()?, self.units.unit());
        let (None, Ok(offcut)) = (&wrong_size, &judged) else {
            let messages = judged.err().unwrap_or_default().into_iter();
            let of_outline = |message: &Message| message.field.starts_with("outline");
            let others = messages.filter(|message| wrong_size.is_none() || !of_outline(message)).collect();
            return Err(match (refusal(others), wrong_size) {
                (Refusal::BadInput(others), Some(size)) => {
                    Refusal::BadInput(std::iter::once(size).chain(others).collect())
                }
                (refusal, _) => refusal,
            });
        };
        Ok(offcut.clone())
    }

    /// What is wrong with a size of nothing or less.
    fn wrong_size(&self) -> Option<String> {
        let is_no_size =
            |text: &&String| Length::read(text, self.units.unit()).is_ok_and(|length| length <= Length::ZERO);
        let text = self.size.iter().flatten().find(is_no_size)?;
        Some(format!("rack add: --size: {text}: must be above zero\n    give length and width of the piece"))
    }

    /// What a piece is cut from has left the rack.
    fn taken_before(&self, rack: &mut job::Rack) -> Result<(), Refusal> {
        let Some(mark) = &self.cut_from else { return Ok(()) };
        match take::find(rack, mark) {
            None => Err(Refusal::bad(take::unknown("rack add", mark))),
            Some(whole) if matches!(whole.standing, Standing::Taken(_)) => Ok(()),
            Some(whole) => Err(Refusal::bad(format!(
                "rack add: --cut-from: {mark}: stands in the rack, {}\n    take it first with: plateloft rack take {mark}",
                whole.standing.words()
            ))),
        }
    }

    /// Every torn zone with why it is one.
    fn torn_zones(&self) -> Result<Vec<NewTornZone>, Refusal> {
        let zones = rings(&self.torn);
        let mut wrong = Vec::new();
        for given in self.torn_why.chunks_exact(2) {
            if !zones.iter().any(|(name, _)| **name == given[0]) {
                let name = &given[0];
                wrong.push(format!(
                    "rack add: --torn-why: {name}: there is no such zone\n    give its corners with --torn {name} X Y"
                ));
            }
        }
        let mut torn = Vec::new();
        for (name, outline) in zones {
            let mut why = self.torn_why.chunks_exact(2).filter(|given| given[0] == *name);
            match (why.next(), why.next()) {
                (Some(given), None) => torn.push(NewTornZone { outline, why: given[1].clone() }),
                (None, _) => wrong.push(format!(
                    "rack add: --torn: {name}: nothing says why it may not be used\n    say it with --torn-why {name} WHY"
                )),
                (Some(_), Some(_)) => wrong.push(format!(
                    "rack add: --torn-why: {name}: is given twice\n    say it once"
                )),
            }
        }
        if wrong.is_empty() { Ok(torn) } else { Err(Refusal::BadInput(wrong)) }
    }

    fn offcut(&self) -> Result<NewOffcut, Refusal> {
        let outline = match (&self.size, &self.corner[..]) {
            (Some(size), _) => {
                let [x, y] = [size[0].clone(), size[1].clone()];
                let zero = || "0".to_owned();
                vec![[zero(), zero()], [x.clone(), zero()], [x, y.clone()], [zero(), y]]
            }
            (None, corners) if corners.len() % 2 == 0 => {
                corners.chunks(2).map(|pair| [pair[0].clone(), pair[1].clone()]).collect()
            }
            _ => return Err(Refusal::bad("rack add: --corner: two lengths are needed\n    give x and y")),
        };
        let holes = rings(&self.hole).into_iter().map(|(_, ring)| ring).collect();
        Ok(NewOffcut {
            mark: self.mark.clone(),
            metal: self.metal.clone(),
            tread: self.tread,
            unlisted: self.unlisted,
            thickness: self.thickness.clone(),
            measured: !self.not_measured,
            outline,
            holes,
            torn: self.torn_zones()?,
            film: match self.film {
                FilmOn::None => Film::Bare,
                FilmOn::OneSide => Film::OneSide,
                FilmOn::BothSides => Film::BothSides,
            },
            face: match self.face {
                Face::Good => FaceState::Good,
                Face::Scratched => FaceState::Scratched,
                Face::Unknown => FaceState::Unknown,
            },
            lay: match self.lay {
                LayOf::AlongX => OffcutLay::AlongX,
                LayOf::AlongY => OffcutLay::AlongY,
                LayOf::None => OffcutLay::None,
                LayOf::Unknown => OffcutLay::Unknown,
            },
            place: self.place.clone(),
            from_job: self.from_job.clone(),
            cut_from: self.cut_from.clone(),
            date: self.date.clone(),
            note: self.note.clone(),
        })
    }
}

/// Corners that belong to the same figure, in the order in which they were given.
fn rings(corners: &[String]) -> Vec<(&String, Vec<[String; 2]>)> {
    let mut rings: Vec<(&String, Vec<[String; 2]>)> = Vec::new();
    for given in corners.chunks_exact(3) {
        let corner = [given[1].clone(), given[2].clone()];
        match rings.iter_mut().find(|(name, _)| **name == given[0]) {
            Some((_, ring)) => ring.push(corner),
            None => rings.push((&given[0], vec![corner])),
        }
    }
    rings
}

/// Puts a piece in the rack if its mark is new and it is worth keeping. `told_by` begins the message.
pub(super) fn put(
    rack: &mut job::Rack,
    offcut: Offcut,
    although_small: bool,
    told_by: &str,
    style: units::LengthStyle,
) -> Result<(), Refusal> {
    let mark = &offcut.mark;
    if rack.offcuts.iter().any(|known| known.mark.to_lowercase() == mark.to_lowercase()) {
        return Err(Refusal::bad(format!(
            "{told_by}: {mark}: a piece of this mark is in the rack already\n    give it a mark of its own"
        )));
    }
    if let Some(least) = rack.least.filter(|least| !although_small && !offcut.holds(*least)) {
        let [a, b] = least.map(|size| size.print(words::by_tape(style)));
        return Err(Refusal::No(format!(
            "{told_by}: {mark}: scrap: it does not hold {a} × {b}, the least that this rack keeps\n    \
             keep it all the same with --although-small"
        )));
    }
    rack.offcuts.push(offcut);
    Ok(())
}

/// Messages about fields of an offcut, as messages about the options that gave them.
pub(super) fn refusal(messages: Vec<Message>) -> Refusal {
    let of_option = |message: Message| Message { field: option(&message.field), ..message }.to_string();
    Refusal::BadInput(messages.into_iter().map(of_option).collect())
}

/// The option that gave a field of an offcut; which hole or zone it was stays with it.
fn option(field: &str) -> String {
    let which = |field: &str| -> String {
        field.chars().take_while(|at| *at != ']').filter(char::is_ascii_digit).collect()
    };
    let numbered = |option: &str| {
        let number =
            which(field).parse::<usize>().map_or_else(|_| String::new(), |from_0| format!(" {}", from_0 + 1));
        format!("--{option}{number}")
    };
    match field {
        outline if outline.starts_with("outline") => "--size or --corner".to_owned(),
        hole if hole.starts_with("holes") => numbered("hole"),
        why if why.starts_with("torn") && why.ends_with("why") => numbered("torn-why"),
        zone if zone.starts_with("torn") => numbered("torn"),
        other => format!("--{}", other.replace('_', "-")),
    }
}
