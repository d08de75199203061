package commands

// allCommands is the catalogue in the order help lists it. To add a command,
// write its file and name it here.
func (a *Assistant) allCommands() []Command {
	return []Command{
		a.mixCommand(),
		a.logCommand(),
		a.undoCommand(),
		a.heapCommand(),
		a.nextCommand(),
		a.readyCommand(),
		a.outlookCommand(),
		a.troubleCommand(),
		a.spreadCommand(),
		a.historyCommand(),
		a.stockCommand(),
		a.gardenCommand(),
		a.dutyCommand(),
		a.askCommand(),
		a.guideCommand(),
	}
}
