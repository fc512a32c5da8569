//! Gas struts on paper: the swing, what they need, and what is left over with the chosen ones.

use estimate::{GasStrut, SwingStep, gas_share};
use paper::lists::weights::{NUMBERS, WORDS, sheet};
use units::{Angle, Length, Temperature, Torque};

use super::super::weights::{force_words, length_words};
use super::{Balanced, degrees, temperature_words};
use crate::plan::balance::units;

impl Balanced<'_> {
    pub(super) fn text(&self) -> String {
        let mounts = &self.struts.mounts;
        let pair = |[out, up]: [Length; 2]| {
            format!("{} out, {} up", length_words(self.flats, out), length_words(self.flats, up))
        };
        let mut text = format!(
            "{}: {} gas struts, lid opens {}\nfrom the pin, lid closed: ends on the frame {}; ends on the lid {}\n\n",
            self.mark,
            mounts.count,
            degrees(mounts.opens),
            pair(mounts.fixed),
            pair(mounts.on_lid)
        );
        text.push_str(&self.swing_table());
        text.push_str(&self.needed_words());
        match &self.struts.chosen {
            Some((name, strut)) => text.push_str(&self.chosen_words(name, strut)),
            None => text.push_str(
                "No strut is chosen: give \"maker\" under \"struts\" with the maker's force, ratio and lengths. The \
                 maker's data decide; none is guessed.\n",
            ),
        }
        text.push_str(
            "Never rely on struts alone: one may lose its gas. Fit a stay or a stop. Mount the rod down when closed, and \
             let nothing push the strut sideways; the maker's own rules go first.\n",
        );
        text
    }

    fn swing_table(&self) -> String {
        let unit = units(self.flats).1.name();
        let moment = format!("lid closes, {unit}");
        let columns = [
            ("open", NUMBERS),
            ("length", NUMBERS),
            ("lever arm", NUMBERS),
            (moment.as_str(), NUMBERS),
            ("each must push", NUMBERS),
        ];
        let row = |step: &SwingStep| {
            vec![
                degrees(step.angle),
                self.length(step.place.length_mm),
                self.length(step.place.arm_mm),
                self.torque(step.lid),
                step.needed.map_or_else(|| "-".to_owned(), |force| force_words(self.flats, force)),
            ]
        };
        sheet(&columns, self.struts.mounts.table(self.lid).iter().map(row).collect(), None)
    }

    fn needed_words(&self) -> String {
        let step = &self.hardest;
        let [cold, _] = self.struts.temperatures;
        let needed = step.needed.unwrap_or_default();
        let [low, high] = self.struts.mounts.length_range_mm();
        format!(
            "each must push = lid / (struts × arm); hardest at {}: {} / ({} × {}) = {}\n\
             gas at {} pushes {:.4} of what it does at 20 °C; margin {} as the job says\n\
             rating at 20 °C, each: {} / {:.4} × {:.4} = {}\n\
             length over the swing {} to {}, so a stroke of {} at least\n",
            degrees(step.angle),
            self.torque_words(step.lid),
            self.struts.mounts.count,
            self.length(step.place.arm_mm),
            force_words(self.flats, needed),
            temperature_words(cold),
            gas_share(cold),
            self.struts.margin.print(),
            force_words(self.flats, needed),
            gas_share(cold),
            1.0 + self.struts.margin.hundredths() as f64 / 10_000.0,
            force_words(self.flats, self.rating),
            self.length(low),
            self.length(high),
            self.length(high - low),
        )
    }

    fn chosen_words(&self, name: &str, strut: &GasStrut) -> String {
        let mut text = format!(
            "\nchosen by its maker's data: {name}, {} at 20 °C near full extension, ratio {}, {} compressed, {} extended\n",
            force_words(self.flats, strut.force),
            strut.ratio,
            length_words(self.flats, strut.compressed),
            length_words(self.flats, strut.extended)
        );
        for at in self.struts.temperatures {
            text.push('\n');
            text.push_str(&self.push_table(strut, at));
        }
        text.push_str(
            "push of all = struts × force × arm; left over = push of all - lid: above zero it opens by itself.\n",
        );
        for at in self.struts.temperatures {
            text.push_str(&format!("at {}: {}\n", temperature_words(at), self.verdict(strut, at)));
        }
        if strut.force < self.rating {
            text.push_str(&format!(
                "CAUTION: rated {}, below the {} that it needs with the margin.\n",
                force_words(self.flats, strut.force),
                force_words(self.flats, self.rating)
            ));
        }
        text
    }

    fn push_table(&self, strut: &GasStrut, at: Temperature) -> String {
        let unit = units(self.flats).1.name();
        let (push, lid, left) =
            (format!("push of all, {unit}"), format!("lid, {unit}"), format!("left over, {unit}"));
        let heading = format!("at {}", temperature_words(at));
        let columns = [
            (heading.as_str(), WORDS),
            ("each pushes", NUMBERS),
            (push.as_str(), NUMBERS),
            (lid.as_str(), NUMBERS),
            (left.as_str(), NUMBERS),
        ];
        let row = |step: &SwingStep| {
            vec![
                degrees(step.angle),
                force_words(self.flats, strut.force_at(step.place.length_mm, at)),
                self.torque(self.struts.mounts.push(strut, step.angle, at)),
                self.torque(step.lid),
                self.torque(self.left_over(strut, step.angle, at)),
            ]
        };
        sheet(&columns, self.struts.mounts.table(self.lid).iter().map(row).collect(), None)
    }

    fn verdict(&self, strut: &GasStrut, at: Temperature) -> String {
        let closed = self.left_over(strut, Angle::from_degrees(0.0), at);
        let open = self.left_over(strut, self.struts.mounts.opens, at);
        let first = if closed > Torque::ZERO {
            "closed, the lid springs up when unlatched: a latch must hold it"
        } else {
            "closed, the lid stays down by itself"
        };
        let last = if open < Torque::ZERO { "open, it FALLS" } else { "open, it stays up" };
        let balances: Vec<String> =
            self.struts.mounts.balances(strut, self.lid, at).into_iter().map(degrees).collect();
        let between = if balances.is_empty() {
            "it turns over nowhere between".to_owned()
        } else {
            format!("it turns over at {}", balances.join(", "))
        };
        format!("{first}; {between}; {last}")
    }
}
