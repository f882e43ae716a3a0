@echo off
chcp 65001 >nul
title SensorLab
set "PATH=%~dp0;%PATH%"
"%~dp0sensorlab.exe" --help
echo.
echo This window knows the word sensorlab. cd takes you to your frames, "sensorlab characterise --help" tells what it asks for.
cmd /k
