//! The command line of the benchmark.

/// What to measure and how.
pub(crate) struct Options {
    pub(crate) files: Vec<String>,
    pub(crate) seconds: f64,
    /// Evaluations in all; as many as the seconds allow when not given.
    pub(crate) evaluations: u64,
    pub(crate) threads: usize,
    pub(crate) seed: u64,
    pub(crate) placements: Option<String>,
    pub(crate) pictures: Option<String>,
    pub(crate) json: bool,
    /// Proofs of bars are checked by the tests' own checker.
    pub(crate) check: bool,
    /// Rectangles are cut edge to edge.
    pub(crate) shear: bool,
    /// Rectangles may turn a quarter.
    pub(crate) turns: bool,
}

impl Options {
    /// Reads the arguments.
    pub(crate) fn read(
        mut arguments: impl Iterator<Item = String>,
    ) -> Result<Self, Box<dyn std::error::Error>> {
        let mut options = Self {
            files: Vec::new(),
            seconds: 60.0,
            evaluations: u64::MAX,
            threads: 2,
            seed: 1,
            placements: None,
            pictures: None,
            json: false,
            check: false,
            shear: false,
            turns: false,
        };
        while let Some(argument) = arguments.next() {
            let mut value = || arguments.next().ok_or_else(|| format!("{argument} needs a value"));
            match argument.as_str() {
                "--seconds" => options.seconds = value()?.parse()?,
                "--evaluations" => options.evaluations = value()?.parse()?,
                "--threads" => options.threads = value()?.parse()?,
                "--seed" => options.seed = value()?.parse()?,
                "--placements" => options.placements = Some(value()?),
                "--pictures" => options.pictures = Some(value()?),
                "--json" => options.json = true,
                "--check" => options.check = true,
                "--shear" => options.shear = true,
                "--turns" => options.turns = true,
                unknown if unknown.starts_with("--") => {
                    return Err(format!("unknown option {unknown}").into());
                }
                _ => options.files.push(argument),
            }
        }
        Ok(options)
    }
}
