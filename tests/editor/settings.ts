/** The editor's settings for a run: nothing that moves, greets, updates or phones. */
export const SETTINGS: Readonly<Record<string, unknown>> = {
  'workbench.startupEditor': 'none',
  'workbench.tips.enabled': false,
  'workbench.secondarySideBar.defaultVisibility': 'hidden',
  'workbench.reduceMotion': 'on',
  'window.commandCenter': false,
  'chat.disableAIFeatures': true,
  'extensions.autoUpdate': false,
  'extensions.autoCheckUpdates': false,
  'extensions.ignoreRecommendations': true,
  'files.autoSave': 'off',
  'security.workspace.trust.enabled': false,
  'telemetry.telemetryLevel': 'off',
  'git.enabled': false,
  'editor.minimap.enabled': false,
};
