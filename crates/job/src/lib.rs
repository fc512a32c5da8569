//! The job file: reading with places, and conversion to the model.
