// The door of `trial`: machines with a hidden fault, technicians who work on them, and what it cost.
