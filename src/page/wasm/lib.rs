//! The door between a page and the engine: bytes go in and out by address, everything else is safe code in `weldbow-page`.
//!
//! A page calls `take(length)` for room, writes its question there (JSON, UTF-8) and calls `ask(address, length)`, which
//! also gives that room back. The answer is one number: its address in the upper half, its length in the lower. The page
//! copies the bytes and calls `give(address, length)`.

use std::alloc::{Layout, alloc, dealloc};

/// Room for so many bytes; 0 if there is none.
#[unsafe(no_mangle)]
extern "C" fn take(length: usize) -> *mut u8 {
    match Layout::from_size_align(length.max(1), 1) {
        // SAFETY: the layout is not of size zero.
        Ok(layout) => unsafe { alloc(layout) },
        Err(_) => std::ptr::null_mut(),
    }
}

/// Gives room back.
///
/// # Safety
/// `address` and `length` are those of one `take` or one answer, and are given once.
#[unsafe(no_mangle)]
unsafe extern "C" fn give(address: *mut u8, length: usize) {
    if let (false, Ok(layout)) = (address.is_null(), Layout::from_size_align(length.max(1), 1)) {
        // SAFETY: by the contract above it was allocated with this very layout.
        unsafe { dealloc(address, layout) }
    }
}

/// Answers a question.
///
/// # Safety
/// `address` is room of `length` bytes from `take`, all of them written; it is given back here.
#[unsafe(no_mangle)]
unsafe extern "C" fn ask(address: *mut u8, length: usize) -> u64 {
    // SAFETY: by the contract above these bytes are there and written.
    let question = unsafe { std::slice::from_raw_parts(address, length) };
    let answer = weldbow_page::answer(question).into_boxed_slice();
    // SAFETY: the caller has handed the room over.
    unsafe { give(address, length) }
    let size = answer.len() as u64;
    // A boxed slice of bytes has the layout that `give` takes back; an answer is never empty.
    let start = Box::into_raw(answer).cast::<u8>() as u64;
    (start << 32) | size
}
