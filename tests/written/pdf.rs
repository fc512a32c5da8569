//! Leaves of the written PDF: its commands are followed as a printer does, its letters measured in the font that it holds.

use std::collections::BTreeMap;

use lopdf::content::{Content, Operation};
use lopdf::{Dictionary, Document, Object};
use ttf_parser::{Face, GlyphId};

use super::{Ink, Place, Seen, run};

const MM: f64 = 25.4 / 72.0;

/// A font of the document: the file it holds, and what its numbers stand for.
struct Held {
    file: Vec<u8>,
    meaning: BTreeMap<u16, String>,
}

/// Every leaf, named by its bookmark.
pub(crate) fn leaves(bytes: &[u8]) -> Vec<Seen> {
    let document = Document::load_mem(bytes).unwrap();
    let mut names: BTreeMap<usize, String> = BTreeMap::new();
    for entry in document.get_toc().unwrap().toc {
        names.entry(entry.page).or_insert(entry.title);
    }
    let pages = document.get_pages();
    let first = pages.values().next().unwrap();
    let fonts: BTreeMap<Vec<u8>, Held> = document
        .get_page_fonts(*first)
        .unwrap()
        .into_iter()
        .map(|(name, font)| (name, held(&document, font)))
        .collect();
    let mut leaves = Vec::new();
    for (number, page) in pages {
        let place = document.get_dictionary(page).unwrap().get(b"MediaBox").unwrap().as_array().unwrap();
        let content = Content::decode(&document.get_page_content(page)).unwrap();
        let mut printer = Printer::new(&fonts);
        content.operations.iter().for_each(|operation| printer.follow(operation));
        let number = usize::try_from(number).unwrap();
        let name = names.get(&number).cloned().unwrap_or_else(|| format!("leaf {number}"));
        let accents = std::mem::take(&mut printer.accents);
        let marked =
            name.ends_with("layout sheet") || (name.contains("full size") && !name.ends_with("key plan"));
        let bends = if marked { accents } else { Vec::new() };
        let size = [float(&place[2]) * MM, float(&place[3]) * MM];
        let Printer { texts, lines, corners, widths, .. } = printer;
        leaves.push(Seen {
            name,
            size,
            texts,
            bends,
            lines,
            corners,
            strokes: Vec::new(),
            leaders: Vec::new(),
            groups: Vec::new(),
            widths,
        });
    }
    leaves
}

fn float(object: &Object) -> f64 {
    f64::from(object.as_float().unwrap())
}

fn held(document: &Document, font: &Dictionary) -> Held {
    let entry = |dictionary: &Dictionary, key: &[u8]| -> Object {
        document.dereference(dictionary.get(key).unwrap()).unwrap().1.clone()
    };
    let descendants = entry(font, b"DescendantFonts");
    let descendant = document.dereference(&descendants.as_array().unwrap()[0]).unwrap().1.as_dict().unwrap();
    let description = entry(descendant, b"FontDescriptor");
    let file = entry(description.as_dict().unwrap(), b"FontFile2");
    let map = entry(font, b"ToUnicode");
    let map = map.as_stream().unwrap();
    let map = map.decompressed_content().unwrap_or_else(|_| map.content.clone());
    Held { file: file.as_stream().unwrap().decompressed_content().unwrap(), meaning: meaning(&map) }
}

/// Pairs of a code and its letters: lines such as `<0003> <0041>`.
fn meaning(map: &[u8]) -> BTreeMap<u16, String> {
    let text = String::from_utf8_lossy(map).into_owned();
    let hex = |word: &str| word.strip_prefix('<')?.strip_suffix('>').map(str::to_owned);
    let pair = |line: &str| {
        let words: Vec<String> = line.split_whitespace().filter_map(hex).collect();
        let [code, letters] = words.as_slice() else { return None };
        let units: Vec<u16> = (0..letters.len() / 4)
            .map(|at| u16::from_str_radix(&letters[4 * at..4 * at + 4], 16))
            .collect::<Result<_, _>>()
            .ok()?;
        Some((u16::from_str_radix(code, 16).ok()?, String::from_utf16_lossy(&units)))
    };
    text.lines().filter_map(pair).collect()
}

/// What a printer keeps in mind while it follows the commands of a leaf.
struct Printer<'a> {
    fonts: BTreeMap<&'a [u8], (Face<'a>, &'a BTreeMap<u16, String>)>,
    font: &'a [u8],
    size: f64,
    matrix: [f64; 6],
    colour: [f64; 3],
    dashed: bool,
    at: Place,
    drawn: Vec<[Place; 2]>,
    /// Lower left and upper right corner of the window, within which a drawing is seen.
    window: Option<[Place; 2]>,
    lines: Vec<[Place; 2]>,
    corners: Vec<Place>,
    /// Ink of the text that is being set: runs one behind the other.
    setting: Vec<Ink>,
    texts: Vec<Ink>,
    width: f64,
    widths: Vec<f64>,
    /// Dashed lines in colour.
    accents: Vec<[Place; 2]>,
}

impl<'a> Printer<'a> {
    fn new(fonts: &'a BTreeMap<Vec<u8>, Held>) -> Self {
        let parsed = fonts
            .iter()
            .map(|(name, held)| (name.as_slice(), (Face::parse(&held.file, 0).unwrap(), &held.meaning)));
        Self {
            fonts: parsed.collect(),
            font: b"",
            size: 0.0,
            matrix: [0.0; 6],
            colour: [0.0; 3],
            dashed: false,
            at: [0.0; 2],
            drawn: Vec::new(),
            window: None,
            lines: Vec::new(),
            corners: Vec::new(),
            setting: Vec::new(),
            texts: Vec::new(),
            width: 0.0,
            widths: Vec::new(),
            accents: Vec::new(),
        }
    }

    fn follow(&mut self, operation: &Operation) {
        let numbers = || -> Vec<f64> {
            operation.operands.iter().filter_map(|operand| operand.as_float().ok()).map(f64::from).collect()
        };
        match operation.operator.as_str() {
            "RG" => self.colour.copy_from_slice(&numbers()),
            "w" => self.width = numbers()[0] * MM,
            "d" => self.dashed = !operation.operands[0].as_array().unwrap().is_empty(),
            "m" => self.at = mm(&numbers()),
            "c" => self.at = mm(&numbers()),
            "l" => {
                let to = mm(&numbers());
                self.drawn.push([self.at, to]);
                self.at = to;
            }
            "S" | "B*" => self.stroke(),
            "f*" | "n" => self.drawn.clear(),
            "re" => {
                let [x, y, width, height] = numbers()[..] else { panic!("a window has four numbers") };
                self.window = Some([[x * MM, y * MM], [(x + width) * MM, (y + height) * MM]]);
            }
            "Q" => self.window = None,
            "Tf" => {
                let name = operation.operands[0].as_name().unwrap();
                self.font = *self.fonts.keys().find(|known| **known == name).unwrap();
                self.size = float(&operation.operands[1]) * MM;
            }
            "Tm" => self.matrix.copy_from_slice(&numbers()),
            "Tj" => self.show(operation.operands[0].as_str().unwrap()),
            "ET" => self.set(),
            "cm" => panic!("no leaf moves its coordinates"),
            _ => {}
        }
    }

    /// Whatever was drawn gets its ink: lines on the paper itself, or what the window shows of a drawing.
    fn stroke(&mut self) {
        if self.widths.iter().all(|known| (known - self.width).abs() > 1e-4) {
            self.widths.push(self.width);
        }
        let drawn = std::mem::take(&mut self.drawn);
        if self.dashed && self.colour[0] < self.colour[2] {
            let seen =
                |line: &[Place; 2]| self.window.map_or(Some(*line), |window| super::within(*line, window));
            self.accents.extend(drawn.iter().filter_map(seen));
        }
        match self.window {
            None => self.lines.extend(&drawn),
            Some([low, high]) => {
                let inside = |at: &Place| (0..2).all(|axis| low[axis] <= at[axis] && at[axis] <= high[axis]);
                self.corners.extend(drawn.iter().flatten().filter(|at| inside(at)));
            }
        }
    }

    fn show(&mut self, codes: &[u8]) {
        let (face, meaning) = &self.fonts[self.font];
        let codes: Vec<u16> = codes.chunks(2).map(|pair| u16::from_be_bytes([pair[0], pair[1]])).collect();
        let words = codes.iter().filter_map(|code| meaning.get(code).map(String::as_str)).collect();
        let (ink, _) = run(face, codes.iter().map(|code| Some(GlyphId(*code))));
        let [a, b, c, d, x, y] = self.matrix;
        let ink = ink.map(|corner| corner.map(|share| share * self.size));
        self.setting.push(Ink::along(words, self.size, [x * MM, y * MM], ([a, b], [c, d]), ink));
    }

    /// All runs of a text become one: they stand on one line.
    fn set(&mut self) {
        let runs = std::mem::take(&mut self.setting);
        let Some(first) = runs.first() else { return };
        let corners: Vec<Place> = runs.iter().flat_map(|run| run.corners).collect();
        let [a, b, c, d, ..] = self.matrix;
        let ((left, right), (low, high)) = (super::span(&corners, [a, b]), super::span(&corners, [c, d]));
        let words: String = runs.iter().map(|run| run.words.as_str()).collect();
        let size = runs.iter().map(|run| run.size).fold(first.size, f64::max);
        let ink = Ink::along(words, size, [0.0; 2], ([a, b], [c, d]), [[left, low], [right, high]]);
        self.texts.push(Ink { at: first.at, ..ink });
    }
}

fn mm(numbers: &[f64]) -> Place {
    let at = numbers.len() - 2;
    [numbers[at] * MM, numbers[at + 1] * MM]
}
