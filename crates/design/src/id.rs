//! Typed ids.

use std::fmt;
use std::marker::PhantomData;

/// An index into an [`Arena`] of `T`.
pub struct Id<T>(u32, PhantomData<fn() -> T>);

impl<T> Id<T> {
    /// The id of the n-th element.
    #[must_use]
    pub fn new(index: usize) -> Id<T> {
        Id(u32::try_from(index).unwrap_or(u32::MAX), PhantomData)
    }

    /// The index.
    #[must_use]
    pub fn index(self) -> usize {
        self.0 as usize
    }
}

impl<T> Clone for Id<T> {
    fn clone(&self) -> Self {
        *self
    }
}
impl<T> Copy for Id<T> {}
impl<T> PartialEq for Id<T> {
    fn eq(&self, other: &Self) -> bool {
        self.0 == other.0
    }
}
impl<T> Eq for Id<T> {}
impl<T> PartialOrd for Id<T> {
    fn partial_cmp(&self, other: &Self) -> Option<std::cmp::Ordering> {
        Some(self.cmp(other))
    }
}
impl<T> Ord for Id<T> {
    fn cmp(&self, other: &Self) -> std::cmp::Ordering {
        self.0.cmp(&other.0)
    }
}
impl<T> fmt::Debug for Id<T> {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "#{}", self.0)
    }
}

/// A list whose elements are named by their [`Id`].
#[derive(Clone, PartialEq, Debug)]
pub struct Arena<T>(Vec<T>);

impl<T> Default for Arena<T> {
    fn default() -> Self {
        Arena(Vec::new())
    }
}

impl<T> Arena<T> {
    /// Adds an element.
    pub fn push(&mut self, value: T) -> Id<T> {
        self.0.push(value);
        Id::new(self.0.len() - 1)
    }

    /// An element, if there is one with this id.
    #[must_use]
    pub fn get(&self, id: Id<T>) -> Option<&T> {
        self.0.get(id.index())
    }

    /// How many.
    #[must_use]
    pub fn len(&self) -> usize {
        self.0.len()
    }

    /// Whether there are none.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        self.0.is_empty()
    }

    /// The elements in order.
    pub fn iter(&self) -> impl DoubleEndedIterator<Item = (Id<T>, &T)> + ExactSizeIterator {
        self.0.iter().enumerate().map(|(i, v)| (Id::new(i), v))
    }

    /// The elements without their ids.
    pub fn values(&self) -> std::slice::Iter<'_, T> {
        self.0.iter()
    }
}

impl<T> std::ops::Index<Id<T>> for Arena<T> {
    type Output = T;
    fn index(&self, id: Id<T>) -> &T {
        &self.0[id.index()]
    }
}

impl<T> std::ops::IndexMut<Id<T>> for Arena<T> {
    fn index_mut(&mut self, id: Id<T>) -> &mut T {
        &mut self.0[id.index()]
    }
}
