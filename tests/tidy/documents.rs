//! Documents name what is there, and the README's commands are the ones that are run.

use super::{crates, text, top};

/// Pieces of text between backticks.
fn quoted(document: &str) -> Vec<String> {
    document.lines().flat_map(|line| line.split('`').skip(1).step_by(2).map(str::to_owned)).collect()
}

#[test]
fn the_guide_names_every_crate() {
    let guide = text("DEVELOPERS.md");
    for name in crates() {
        assert!(guide.contains(&format!("`crates/{name}`")), "DEVELOPERS.md does not mention crates/{name}");
    }
    let mentioned =
        quoted(&guide).into_iter().filter_map(|path| path.strip_prefix("crates/").map(str::to_owned));
    for path in mentioned {
        assert!(
            top().join("crates").join(&path).exists(),
            "DEVELOPERS.md mentions crates/{path}, which is gone"
        );
    }
}

#[test]
fn paths_in_documents_exist() {
    let folders = ["crates/", "fixtures/", "tests/", "output-samples/", ".ci/"];
    for document in ["README.md", "DEVELOPERS.md"] {
        for path in quoted(&text(document)) {
            if folders.iter().any(|folder| path.starts_with(folder)) && !path.contains(['*', ' ']) {
                assert!(top().join(&path).exists(), "{document} mentions {path}, which is gone");
            }
        }
    }
}

#[test]
fn pictures_in_documents_exist() {
    for document in ["README.md", "DEVELOPERS.md"] {
        for link in text(document).split("](").skip(1) {
            let path = link.split(')').next().unwrap_or_default();
            assert!(
                path.contains("://") || top().join(path).exists(),
                "{document} shows {path}, which is gone"
            );
        }
    }
}

#[test]
fn the_readme_is_what_is_run() {
    let (readme, script) = (text("README.md"), text(".ci/run"));
    let commands = [
        "cargo run --release -- packet fixtures/jobs/oyster-skiff.json --out target/oyster-skiff",
        "cargo test --workspace",
    ];
    for command in commands {
        assert!(readme.lines().any(|line| line == command), "README.md lacks: {command}");
        assert!(script.lines().any(|line| line == command), ".ci/run lacks: {command}");
    }
}
