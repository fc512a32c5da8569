//! Files: nothing half-written.
