'use strict';
// Starts the language server for staging files; everything else is its work.
const { workspace } = require('vscode');
const { LanguageClient, TransportKind } = require('vscode-languageclient/node');

let client;

exports.activate = () => {
  const command = workspace.getConfiguration('staging').get('program', 'lensward');
  const server = { command, args: ['editor'], transport: TransportKind.stdio };
  client = new LanguageClient('staging', 'Staging', server, {
    documentSelector: [{ language: 'staging' }],
    synchronize: { fileEvents: workspace.createFileSystemWatcher('**/*.staging') },
  });
  return client.start();
};

exports.deactivate = () => client && client.stop();
