//! `plateloft new`: a commented job to start from.

use std::path::PathBuf;

use clap::Args;

use crate::speech::{self, Refusal};

/// Starts a job: writes `job.json`, a small job with a note at every field, to a folder.
#[derive(Debug, Args)]
pub(crate) struct New {
    /// Folder to write to; it is made if it is not there
    folder: PathBuf,
}

impl New {
    /// Runs the command.
    #[expect(clippy::disallowed_methods, reason = "the program is where files are touched")]
    pub(crate) fn run(&self) -> Result<(), Refusal> {
        let path = self.folder.join("job.json");
        let cannot = |error: std::io::Error| Refusal::cannot(&path, "written", &error);
        std::fs::create_dir_all(&self.folder).map_err(cannot)?;
        let mut file =
            std::fs::OpenOptions::new().write(true).create_new(true).open(&path).map_err(|error| {
                if error.kind() == std::io::ErrorKind::AlreadyExists {
                    Refusal::bad(format!("{}: is there already\n    name another folder", path.display()))
                } else {
                    cannot(error)
                }
            })?;
        std::io::Write::write_all(&mut file, job::starter().as_bytes()).map_err(cannot)?;
        speech::tell(&format!("wrote {}; next: plateloft check {}", path.display(), path.display()));
        Ok(())
    }
}
