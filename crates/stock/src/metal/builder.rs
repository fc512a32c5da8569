//! Settling a metal's figures: the job's own first, then the tables.

use super::{Figure, FigureValue, Film, Lay, Metal, Override, Pattern};
use crate::alloy::{Alloy, AlloyTemper};
use crate::bend_model::{BendModel, recommended_k_factor};
use crate::inside_radius::{LeastInsideRadius, least_inside_radius};
use crate::tread::{TreadWeight, tread_floor_weight};
use units::{Density, Length, MassPerArea, ReadError};

const GIVEN: &str = "given by the job";

/// Why a metal's figures cannot be settled.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum MetalError {
    /// The thickness is zero, negative or absurd.
    #[error("no sheet has this thickness: {fault}")]
    Thickness {
        /// What is wrong with it.
        fault: ReadError,
    },
    /// An inside radius is below zero.
    #[error("the inside radius is below zero")]
    NegativeRadius,
    /// The K-factor does not lie inside the thickness.
    #[error("a K-factor lies between 0 and 1")]
    KFactor,
    /// No table recommends a bend model for this metal, and the job names none.
    #[error("no bend model is known for {alloy}, and the job names none")]
    NoBendModel {
        /// The alloy's name.
        alloy: String,
    },
}

/// Collects what the job says of a metal; [`MetalBuilder::build`] fills in the rest from the tables.
#[derive(Debug, Clone)]
pub struct MetalBuilder {
    name: String,
    alloy: Alloy,
    temper: Option<String>,
    thickness: Length,
    pattern: Pattern,
    lay: Option<Lay>,
    film: Film,
    density: Option<Density>,
    weight_per_area: Option<MassPerArea>,
    inside_radius: Option<Length>,
    least_inside_radius: Option<Length>,
    bend_model: Option<BendModel>,
}

impl MetalBuilder {
    /// A plain bare metal of this alloy, temper and thickness, under the job's own name.
    #[must_use]
    pub fn new(name: &str, found: AlloyTemper, thickness: Length) -> Self {
        let mut builder = Self::unlisted(name, found.alloy.clone(), thickness);
        builder.temper = found.temper.map(str::to_owned);
        builder
    }

    /// As [`MetalBuilder::new`], for an alloy made by [`Alloy::unlisted`].
    #[must_use]
    pub fn unlisted(name: &str, alloy: Alloy, thickness: Length) -> Self {
        Self {
            name: name.to_owned(),
            alloy,
            temper: None,
            thickness,
            pattern: Pattern::Plain,
            lay: None,
            film: Film::Bare,
            density: None,
            weight_per_area: None,
            inside_radius: None,
            least_inside_radius: None,
            bend_model: None,
        }
    }

    /// Sets the pattern.
    #[must_use]
    pub fn pattern(mut self, pattern: Pattern) -> Self {
        self.pattern = pattern;
        self
    }

    /// Sets which way lugs or grain run on the sheet.
    #[must_use]
    pub fn lay(mut self, lay: Lay) -> Self {
        self.lay = Some(lay);
        self
    }

    /// Sets the protective film.
    #[must_use]
    pub fn film(mut self, film: Film) -> Self {
        self.film = film;
        self
    }

    /// Replaces the table's density.
    #[must_use]
    pub fn density(mut self, density: Density) -> Self {
        self.density = Some(density);
        self
    }

    /// Replaces the mass per area that thickness and density give.
    #[must_use]
    pub fn weight_per_area(mut self, weight: MassPerArea) -> Self {
        self.weight_per_area = Some(weight);
        self
    }

    /// Sets the inside radius of bends.
    #[must_use]
    pub fn inside_radius(mut self, radius: Length) -> Self {
        self.inside_radius = Some(radius);
        self
    }

    /// Replaces the table's least inside radius.
    #[must_use]
    pub fn least_inside_radius(mut self, radius: Length) -> Self {
        self.least_inside_radius = Some(radius);
        self
    }

    /// Replaces the recommended bend model.
    #[must_use]
    pub fn bend_model(mut self, model: BendModel) -> Self {
        self.bend_model = Some(model);
        self
    }

    /// Settles every figure and records the source of each and what the job replaced.
    ///
    /// A metal without an inside radius of its own bends to its thickness or to the least radius, whichever is more.
    ///
    /// # Errors
    /// [`MetalError`].
    pub fn build(self) -> Result<Metal, MetalError> {
        let mut record = Record::default();
        let density = record.density(&self);
        let weight = record.weight(&self, density)?;
        let least_inside_radius = record.least_radius(&self)?;
        let inside_radius = record.radius(&self, least_inside_radius.as_ref())?;
        let bend_model = record.model(&self)?;
        Ok(Metal {
            name: self.name,
            alloy: self.alloy,
            temper: self.temper,
            pattern: self.pattern,
            thickness: self.thickness,
            inside_radius,
            least_inside_radius,
            density,
            weight_per_area: weight.weight,
            pattern_included: weight.pattern_included,
            lay: self.lay,
            film: self.film,
            bend_model,
            sources: record.sources,
            overrides: record.overrides,
        })
    }
}

/// Sources and overrides as the figures are settled.
#[derive(Default)]
struct Record {
    sources: Vec<(Figure, String)>,
    overrides: Vec<Override>,
}

impl Record {
    /// Takes the job's value or else the table's, and keeps the record. None if there is neither.
    fn settle<T: Copy + PartialEq>(
        &mut self,
        figure: Figure,
        wrap: fn(T) -> FigureValue,
        job: Option<T>,
        table: Option<(T, String)>,
    ) -> Option<T> {
        let Some(job) = job else {
            let (value, source) = table?;
            self.sources.push((figure, source));
            return Some(value);
        };
        self.sources.push((figure, GIVEN.to_owned()));
        if let Some((table, table_source)) = table.filter(|(table, _)| *table != job) {
            self.overrides.push(Override { figure, table: wrap(table), table_source, job: wrap(job) });
        }
        Some(job)
    }

    fn density(&mut self, metal: &MetalBuilder) -> Density {
        let table = (metal.alloy.density, metal.alloy.source.clone());
        let settled = self.settle(Figure::Density, FigureValue::Density, metal.density, Some(table));
        settled.unwrap_or(metal.alloy.density)
    }

    fn weight(&mut self, metal: &MetalBuilder, density: Density) -> Result<TreadWeight, MetalError> {
        let alloy = Alloy { density, ..metal.alloy.clone() };
        let mut weight =
            match metal.pattern {
                Pattern::Tread => tread_floor_weight(&alloy, metal.thickness),
                Pattern::Plain => MassPerArea::of_thickness(density, metal.thickness).map(|weight| {
                    TreadWeight { weight, pattern_included: true, source: "thickness × density".to_owned() }
                }),
            }
            .map_err(|fault| MetalError::Thickness { fault })?;
        let table = (weight.weight, weight.source.clone());
        let job = metal.weight_per_area;
        let settled = self.settle(Figure::WeightPerArea, FigureValue::WeightPerArea, job, Some(table));
        if let (Some(settled), true) = (settled, job.is_some()) {
            weight = TreadWeight { weight: settled, pattern_included: true, source: GIVEN.to_owned() };
        }
        Ok(weight)
    }

    fn least_radius(&mut self, metal: &MetalBuilder) -> Result<Option<LeastInsideRadius>, MetalError> {
        let row = least_inside_radius(&metal.alloy.name, metal.temper.as_deref(), metal.thickness);
        let table = row.as_ref().map(|row| (row.radius, row.source.clone()));
        let job = metal.least_inside_radius;
        if job.is_some_and(|radius| radius < Length::ZERO) {
            return Err(MetalError::NegativeRadius);
        }
        let settled = self.settle(Figure::LeastInsideRadius, FigureValue::Length, job, table);
        Ok(match (settled, job) {
            (Some(radius), Some(_)) => Some(LeastInsideRadius {
                radius,
                times_thickness: None,
                row_thickness: metal.thickness,
                next_thicker_row: false,
                source: GIVEN.to_owned(),
            }),
            _ => row,
        })
    }

    fn radius(
        &mut self,
        metal: &MetalBuilder,
        least: Option<&LeastInsideRadius>,
    ) -> Result<Length, MetalError> {
        if let Some(radius) = metal.inside_radius {
            if radius < Length::ZERO {
                return Err(MetalError::NegativeRadius);
            }
            self.sources.push((Figure::InsideRadius, GIVEN.to_owned()));
            return Ok(radius);
        }
        let (radius, source) = match least.filter(|least| least.radius > metal.thickness) {
            Some(least) => (least.radius, format!("the least allowed: {}", least.source)),
            None => (metal.thickness, "equal to the thickness: common practice, no source".to_owned()),
        };
        self.sources.push((Figure::InsideRadius, source));
        Ok(radius)
    }

    fn model(&mut self, metal: &MetalBuilder) -> Result<BendModel, MetalError> {
        if let Some(BendModel::KFactor(k)) = metal.bend_model
            && !(0.0..=1.0).contains(&k)
        {
            return Err(MetalError::KFactor);
        }
        let row = recommended_k_factor(metal.alloy.family);
        let table = row.map(|row| (BendModel::KFactor(row.k_factor), row.source.clone()));
        self.settle(Figure::BendModel, FigureValue::BendModel, metal.bend_model, table)
            .ok_or_else(|| MetalError::NoBendModel { alloy: metal.alloy.name.clone() })
    }
}
