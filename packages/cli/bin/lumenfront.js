#!/usr/bin/env node
// Committed, so that the package manager can link the command before anything is built.
import '../dist/main.js';
