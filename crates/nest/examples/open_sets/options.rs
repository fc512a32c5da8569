//! The command line of the benchmark.

/// What to measure and how.
pub(crate) struct Options {
    pub(crate) files: Vec<String>,
    /// Seconds allowed: 60 when neither they nor evaluations are given, without end when only evaluations are.
    pub(crate) seconds: f64,
    /// Evaluations in all; as many as the seconds allow when not given.
    pub(crate) evaluations: u64,
    pub(crate) threads: usize,
    /// Starts that the evaluations are shared among, on which the answer depends: as many as threads when only the
    /// seconds end the search, else [`STARTS`], so that the row does not depend on the threads.
    pub(crate) starts: u32,
    pub(crate) seed: u64,
    pub(crate) placements: Option<String>,
    pub(crate) pictures: Option<String>,
    pub(crate) json: bool,
    /// Rows of sums follow those of the instances.
    pub(crate) totals: bool,
    /// Proofs of bars are checked by the tests' own checker.
    pub(crate) check: bool,
    /// Rectangles are cut edge to edge.
    pub(crate) shear: bool,
    /// Rectangles may turn a quarter.
    pub(crate) turns: bool,
}

/// Seconds when nothing is said.
const SECONDS: f64 = 60.0;

/// Starts of a search that evaluations end.
const STARTS: u32 = 2;

impl Options {
    /// Reads the arguments.
    pub(crate) fn read(
        mut arguments: impl Iterator<Item = String>,
    ) -> Result<Self, Box<dyn std::error::Error>> {
        let mut options = Self {
            files: Vec::new(),
            seconds: SECONDS,
            evaluations: u64::MAX,
            threads: 2,
            starts: STARTS,
            seed: 1,
            placements: None,
            pictures: None,
            json: false,
            totals: false,
            check: false,
            shear: false,
            turns: false,
        };
        let (mut seconds, mut evaluations, mut starts) = (None, None, None);
        while let Some(argument) = arguments.next() {
            let mut value = || arguments.next().ok_or_else(|| format!("{argument} needs a value"));
            match argument.as_str() {
                "--seconds" => seconds = Some(value()?.parse()?),
                "--evaluations" => evaluations = Some(value()?.parse()?),
                "--threads" => options.threads = value()?.parse()?,
                "--starts" => starts = Some(value()?.parse()?),
                "--seed" => options.seed = value()?.parse()?,
                "--placements" => options.placements = Some(value()?),
                "--pictures" => options.pictures = Some(value()?),
                "--json" => options.json = true,
                "--totals" => options.totals = true,
                "--check" => options.check = true,
                "--shear" => options.shear = true,
                "--turns" => options.turns = true,
                unknown if unknown.starts_with("--") => {
                    return Err(format!("unknown option {unknown}").into());
                }
                _ => options.files.push(argument),
            }
        }
        let by_clock = if evaluations.is_none() { SECONDS } else { f64::INFINITY };
        let by_threads = u32::try_from(options.threads)?;
        options.seconds = seconds.unwrap_or(by_clock);
        options.starts = starts.unwrap_or(if evaluations.is_none() { by_threads } else { STARTS });
        options.evaluations = evaluations.unwrap_or(u64::MAX);
        Ok(options)
    }
}
