//! Names of an opposite hand: what is to port on the drawn part is to starboard on its hand, what is left is right.

use shapes::{Places, Shaped};

/// Words that change places.
const EXCHANGED: [(&str, &str); 3] = [("port", "starboard"), ("left", "right"), ("LEFT", "RIGHT")];

/// A name with its sides exchanged, word for word.
pub(crate) fn exchanged(name: &str) -> String {
    let word = |word: &str| {
        let other = EXCHANGED.iter().find_map(|&(a, b)| match word {
            _ if word == a => Some(b),
            _ if word == b => Some(a),
            _ => None,
        });
        other.unwrap_or(word).to_owned()
    };
    name.split(' ').map(word).collect::<Vec<_>>().join(" ")
}

/// Renames faces, seams, sizes and facts of a mirrored part.
pub(crate) fn rename(shaped: &mut Shaped) {
    let part = &mut shaped.part;
    let faces = part.faces.iter_mut().map(|face| &mut face.name);
    let seams = part.seams.iter_mut().map(|seam| &mut seam.name);
    let sizes = part.sizes.iter_mut().map(|size| &mut size.name);
    let facts = shaped.facts.iter_mut().map(|fact| &mut fact.name);
    for name in faces.chain(seams).chain(sizes).chain(facts) {
        *name = exchanged(name);
    }
}

/// The named places of a mirrored part.
pub(crate) fn places(natural: &Places) -> Places {
    let mut places = natural.mirrored();
    let edges = places.edges.iter_mut().map(|(name, _)| name);
    for name in edges.chain(places.stations.iter_mut().map(|(name, _)| name)) {
        *name = exchanged(name);
    }
    places
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn sides_change_places_and_nothing_else_does() {
        assert_eq!(exchanged("starboard side of the console"), "port side of the console");
        assert_eq!(exchanged("right end"), "left end");
        assert_eq!(exchanged("wall AB, outside"), "wall AB, outside");
    }
}
