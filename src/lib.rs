//! weldbow
