//! What the lids of a job take by their weights and is in no count of hardware: struts, hinges, stays. Someone has to buy it.

use job::{HingedLid, Job};

/// Something that a lid takes and that "hardware" does not count.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) struct Uncounted {
    /// The mark of the lid.
    pub(crate) lid: String,
    /// What it is.
    pub(crate) what: WhatOfLid,
}

/// What a lid takes.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) enum WhatOfLid {
    /// So many gas struts, by the maker's name once one is chosen.
    Struts(u32, Option<String>),
    /// Things that hang on it, named with a weight only.
    Named(Vec<String>),
}

/// All of it, lid by lid. An item of the job's hardware that has the name in it counts it.
pub(crate) fn uncounted(job: &Job) -> Vec<Uncounted> {
    job.weights.lids.iter().flat_map(|lid| of_lid(job, lid)).collect()
}

fn of_lid(job: &Job, lid: &HingedLid) -> Vec<Uncounted> {
    let is_counted = |what: &str| job.hardware.iter().any(|hardware| hardware.item.contains(what));
    let struts = lid.struts.as_ref().map(|struts| {
        let name = struts.chosen.as_ref().map(|(name, _)| name.clone());
        WhatOfLid::Struts(struts.mounts.count, name)
    });
    let struts = struts.filter(|struts| match struts {
        WhatOfLid::Struts(_, Some(name)) => !is_counted(name),
        _ => true,
    });
    let named = lid.hardware.iter().map(|hung| hung.what.clone());
    let named: Vec<String> = named.filter(|what| !is_counted(what)).collect();
    let named = (!named.is_empty()).then_some(WhatOfLid::Named(named));
    struts.into_iter().chain(named).map(|what| Uncounted { lid: lid.mark.clone(), what }).collect()
}
