//! Whether the readings of a built chair are of the chair under look, and what they say of it in other settings.

use crate::{Options, Project};
use chairwright_design::{AsBuilt, Band, Carry, Design, OtherBuilt};
use chairwright_language::{Choice, Situation};

impl Project {
    /// Marks readings that are of another chair; in another state, at another stop or with other parameters than the chair was
    /// tested in says by how much it differed from its plan.
    pub(crate) fn tested(&self, options: &Options, choice: Choice<'_>, design: &mut Design) {
        let Some(built) = &design.as_built else { return };
        let other = self.other(options, design, built);
        let other_place = !same_file(self.place.as_deref(), built.place.as_deref());
        let here = options.situation == Situation::default() && options.settings.is_empty();
        let carry = match other {
            None | Some(OtherBuilt::Settings) if !here => self.carry(choice),
            _ => None,
        };
        // where nobody knows by how much it differed the readings are as good as of another chair
        let unknown = Some(OtherBuilt::Settings).filter(|_| !here && carry.is_none());
        if let Some(built) = &mut design.as_built {
            (built.other, built.carry) = (other.or(unknown), carry);
            built.other_place = other_place;
        }
    }

    fn other(&self, options: &Options, design: &Design, built: &AsBuilt) -> Option<OtherBuilt> {
        let rider = same_file(self.rider.as_deref(), built.rider.as_deref());
        match () {
            () if built.variant != design.variant => Some(OtherBuilt::Variant),
            () if built.revision.is_some() && built.revision != design.revision => Some(OtherBuilt::Revision),
            () if !rider => Some(OtherBuilt::Rider),
            () if !options.settings.is_empty() => Some(OtherBuilt::Settings),
            () => None,
        }
    }

    /// By how much the chair differed from its plan where it was tested: as drawn and ridden.
    fn carry(&self, choice: Choice<'_>) -> Option<Carry> {
        let (program, _) = self.program(Choice { state: None, picks: &[], settings: &[], ..choice });
        let mut design = program.build(&self.tables).design;
        chairwright_checks::grow(&mut design.rider, &mut Vec::new());
        let frame = chairwright_frame::frame(&design);
        let there = chairwright_checks::check(&design, &frame);
        let built = design.as_built?;
        let by = built.values.keys().filter_map(|field| {
            let found = there.compared.iter().find(|c| chairwright_checks::is_reading(field, c.figure))?;
            let plan = found.plan?;
            Some((field.clone(), Band { low: found.built.0 - plan, high: found.built.1 - plan }))
        });
        Some(Carry { by: by.collect(), shifts: there.shifts })
    }
}

/// Whether the text that is read for the plan's own is the one that is named, by its name without folders.
fn same_file(read: Option<&str>, named: Option<&str>) -> bool {
    let (Some(file), Some(named)) = (read, named) else { return read.is_none() && named.is_none() };
    let name = file.rsplit(['/', '\\']).next().unwrap_or(file);
    named == name || name.strip_suffix(".chair") == Some(named)
}
