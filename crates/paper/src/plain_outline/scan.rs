//! The lines of a plain outline, taken one by one.

use geometry::Point;

use super::read::OutlineError;

/// The statements of a file, remarks left out, with their line numbers from 1.
pub(super) struct Lines<'a> {
    lines: Vec<(usize, &'a str)>,
    next: usize,
}

/// The words of one statement still to be read.
pub(super) struct Words<'a> {
    pub(super) line: usize,
    words: std::str::Split<'a, char>,
}

impl<'a> Lines<'a> {
    pub(super) fn of(text: &'a str) -> Self {
        let numbered = text.lines().enumerate().map(|(number, line)| (number + 1, line));
        let lines = numbered.filter(|(_, line)| !line.starts_with('#') && !line.is_empty()).collect();
        Self { lines, next: 0 }
    }

    /// The next statement, still to be taken.
    pub(super) fn peek(&self) -> &'a str {
        self.lines.get(self.next).map_or("", |(_, line)| line)
    }

    /// Takes the next statement, which must start with `keyword`; hands out what follows it.
    pub(super) fn take(&mut self, keyword: &'static str) -> Result<(usize, &'a str), OutlineError> {
        let &(line, statement) =
            self.lines.get(self.next).ok_or(OutlineError::TooShort { expected: keyword })?;
        let rest = statement.strip_prefix(keyword).filter(|rest| rest.is_empty() || rest.starts_with(' '));
        let rest = rest.ok_or_else(|| OutlineError::Unexpected {
            line,
            expected: keyword,
            found: statement.chars().take(40).collect(),
        })?;
        self.next += 1;
        Ok((line, rest.strip_prefix(' ').unwrap_or(rest)))
    }

    /// Takes a statement of words.
    pub(super) fn words(&mut self, keyword: &'static str) -> Result<Words<'a>, OutlineError> {
        let (line, rest) = self.take(keyword)?;
        Ok(Words { line, words: rest.split(' ') })
    }

    /// Takes a statement of free text.
    pub(super) fn free_text(&mut self, keyword: &'static str) -> Result<String, OutlineError> {
        let (_, rest) = self.take(keyword)?;
        let mut text = String::new();
        let mut letters = rest.chars();
        while let Some(letter) = letters.next() {
            match letter {
                '\\' => text.extend(letters.next().map(|code| match code {
                    'n' => '\n',
                    'r' => '\r',
                    other => other,
                })),
                _ => text.push(letter),
            }
        }
        Ok(text)
    }

    /// Fails when statements are left.
    pub(super) fn finish(&self) -> Result<(), OutlineError> {
        match self.lines.get(self.next) {
            None => Ok(()),
            Some(&(line, found)) => Err(OutlineError::Unexpected {
                line,
                expected: "the end of the file",
                found: found.chars().take(40).collect(),
            }),
        }
    }
}

impl Words<'_> {
    /// Takes the word `expected`.
    pub(super) fn word(&mut self, expected: &'static str) -> Result<(), OutlineError> {
        let found = self.words.next().unwrap_or("");
        if found == expected {
            return Ok(());
        }
        Err(OutlineError::Unexpected { line: self.line, expected, found: found.to_owned() })
    }

    /// Takes one of two words; true for the first.
    pub(super) fn choice(&mut self, first: &'static str, second: &'static str) -> Result<bool, OutlineError> {
        match self.words.next().unwrap_or("") {
            found if found == first => Ok(true),
            found if found == second => Ok(false),
            found => {
                Err(OutlineError::Unexpected { line: self.line, expected: first, found: found.to_owned() })
            }
        }
    }

    /// Takes a number.
    pub(super) fn number(&mut self) -> Result<f64, OutlineError> {
        let found = self.words.next().unwrap_or("");
        let number = found.parse::<f64>().ok().filter(|number| number.is_finite());
        number.ok_or_else(|| OutlineError::NotANumber { line: self.line, found: found.to_owned() })
    }

    /// Takes a point given in units of `scale` mm.
    pub(super) fn point(&mut self, scale: f64) -> Result<Point, OutlineError> {
        Ok(Point::new(self.number()? * scale, self.number()? * scale))
    }

    /// Fails when words are left.
    pub(super) fn finish(mut self) -> Result<(), OutlineError> {
        match self.words.next() {
            None | Some("") => Ok(()),
            Some(found) => Err(OutlineError::Unexpected {
                line: self.line,
                expected: "the end of the line",
                found: found.to_owned(),
            }),
        }
    }
}
